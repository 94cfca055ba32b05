/** Which engine a page is about, in one line above its work. The engine's own page says it in full. */
import { type JSX, type ParentProps, Show } from 'solid-js'
import type { Job } from '../../shared/job/types'
import { Fact } from '../ui/Fact'
import { Invented } from '../ui/Invented'
import { useJob } from './scope'

/** Number and what the page is; beside it what the page puts there. */
export function JobHead(props: ParentProps<{ title: JSX.Element }>) {
  const scope = useJob()
  return (
    <header class="job-head cluster level">
      <h1>
        <span class="stencil">{scope.job().number}</span> <span>{props.title}</span>
      </h1>
      <AsOf />
      {props.children}
    </header>
  )
}

/** Where the server is not heard: when what is shown stood so. */
export function AsOf() {
  const { asOf, words } = useJob()
  return <Show when={asOf()}>{(at) => <p class="as-of">As of {words.moment(at())}</p>}</Show>
}

/** Model, serial, and the edition of the plan it is built by. */
export function EngineLine() {
  const scope = useJob()
  return (
    <>
      {scope.job().engine.model}, {scope.job().engine.serial}
      <Show when={scope.job().plan}>
        {(plan) => (
          <>
            , plan edition {plan().edition} <Invented plan={plan()} />
          </>
        )}
      </Show>
    </>
  )
}

/** The engine and whose it is, as facts of a list; with its model where no heading says that. */
export function EngineFacts(props: { job: Job; withModel?: boolean }) {
  return (
    <>
      <Show when={props.withModel}>
        <Fact term="Engine">{props.job.engine.model}</Fact>
      </Show>
      <Fact term="Serial">{props.job.engine.serial}</Fact>
      <Show when={props.job.engine.drives}>{(drives) => <Fact term="Drives">{drives()}</Fact>}</Show>
      <Fact term="Owner">{props.job.owner}</Fact>
    </>
  )
}
