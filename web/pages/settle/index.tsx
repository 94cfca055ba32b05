/** A torque nobody published: what is known of the joint, the three ways to a value, and what was settled for ever. */

import { A, useParams } from '@solidjs/router'
import { createMemo, createSignal, Show } from 'solid-js'
import { proposalJoint } from '../../../shared/job/proposal'
import type { SettledValue } from '../../../shared/job/types'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedJoint, AdoptedStep } from '../../../shared/plan/types'
import { bandWords } from '../../../shared/plan/words'
import { BandBar } from '../../drawings/BandBar'
import { format } from '../../format'
import { usePageTitle } from '../../frame/title'
import { auditHref, benchHref } from '../../hrefs'
import { JobHead } from '../../job/JobHead'
import { JobProvider } from '../../job/JobProvider'
import { RefusedEntries } from '../../job/RefusedEntries'
import { useJob } from '../../job/scope'
import { SettledInFull } from '../../job/settled/Settled'
import { whoSettles } from '../../job/settled/settled-words'
import { Button } from '../../ui/Button'
import { EmptyState } from '../../ui/EmptyState'
import { Sentence } from '../../ui/Sentence'
import { Known } from './Known'
import { ProposalShown } from './ProposalShown'
import { Ways } from './Ways'
import './settle.css'

export default function SettlePage() {
  const params = useParams<{ joint: string; pass: string }>()
  return (
    <JobProvider place="audit">
      <RefusedEntries />
      <Show keyed when={`${params.joint} ${params.pass}`}>
        <Settle joint={params.joint} pass={Number(params.pass)} />
      </Show>
    </JobProvider>
  )
}

function Settle(props: { joint: string; pass: number }) {
  const scope = useJob()
  usePageTitle(() => `${scope.job().number} value of ${props.joint}`)
  // By name: an entry from elsewhere must not draw the form anew under the hand that types in it.
  const at = createMemo<{ joint: AdoptedJoint; step: AdoptedStep } | undefined>(
    () => {
      const { plan } = scope.job()
      const index = plan && indexPlan(plan)
      const joint = index?.jointById.get(props.joint)
      const step = index?.stepOfJoint.get(props.joint)
      const pass = joint?.passes[props.pass - 1]
      return joint && step && pass?.kind === 'torque' && pass.torqueNm === null ? { joint, step } : undefined
    },
    undefined,
    { equals: (a, b) => a?.joint.id === b?.joint.id },
  )
  const isPass = () => {
    const { plan } = scope.job()
    return (
      plan !== undefined && indexPlan(plan).jointById.get(props.joint)?.passes[props.pass - 1] !== undefined
    )
  }
  return (
    <div class="page settle-page stack apart">
      <JobHead title="No published torque">
        <nav aria-label="This engine">
          <A class="button quiet" href={auditHref(scope.job().id)}>
            Audit
          </A>
          <Show when={at()}>
            {(one) => (
              <A class="button quiet" href={benchHref(scope.job().id, one().step.id)}>
                Bench, {one().step.id}
              </A>
            )}
          </Show>
        </nav>
      </JobHead>
      <Show keyed when={at()} fallback={<NothingToSettle known={isPass()} />}>
        {(one) => <Joint joint={one.joint} step={one.step} pass={props.pass} />}
      </Show>
    </div>
  )
}

function Joint(props: { pass: number } & Pick<Parameters<typeof Known>[0], 'joint' | 'step'>) {
  const scope = useJob()
  const [anew, setAnew] = createSignal(false)
  const known = createMemo(() =>
    proposalJoint(scope.planned(), props.joint, props.pass, scope.shop().tolerances),
  )
  const settled = () => scope.job().settled[props.joint.id]?.[props.pass]
  /** Who may, asked with any value: the rest is the form's. */
  const refusal = createMemo(() =>
    scope.may({
      type: 'SettleValue',
      jointId: props.joint.id,
      pass: props.pass,
      torqueNm: 1,
      minNm: 1,
      maxNm: 1,
      basis: { kind: 'word', competence: '–' },
      reason: '–',
    }),
  )
  return (
    <>
      <Show
        when={settled()}
        fallback={
          <p class="settle-say">
            The maker’s information gives no torque here. Nothing can be signed off until a competent person
            decides one, in writing.
          </p>
        }
      >
        {(value) => <InForce value={value()} />}
      </Show>
      {/* Who may not settle it reads first who does: what is known of the joint is for that person. */}
      <Show when={refusal()}>
        {(no) => (
          <div class="settle-anew">
            <Sentence against>{no().sentence}</Sentence>
            <p>{whoSettles(scope.shop())}</p>
          </div>
        )}
      </Show>
      <Known joint={props.joint} step={props.step} pass={props.pass} known={known()} />
      <Show when={!refusal()}>
        <Show
          when={!settled() || anew()}
          fallback={
            <div class="settle-anew">
              <p>
                Decided again, everything signed on the old torque must be signed again, and every reading is
                judged by the new one. The old one stays in the record.
              </p>
              <Button onClick={() => setAnew(true)}>Decide again</Button>
            </div>
          }
        >
          <Ways joint={props.joint} pass={props.pass} known={known()} onSettled={() => settledNow(setAnew)} />
        </Show>
      </Show>
    </>
  )
}

function InForce(props: { value: SettledValue }) {
  const proposal = () => (props.value.basis.kind === 'computed' ? props.value.basis.proposal : undefined)
  return (
    <section class="settle-force" aria-labelledby="settle-force-head">
      <div class="settle-plate stack">
        <h2 id="settle-force-head">In force</h2>
        <SettledInFull value={props.value}>
          <BandBar
            min={props.value.band.minNm}
            max={props.value.band.maxNm}
            target={props.value.torqueNm}
            ticks={[]}
            show={(nm) => format.torque(nm, 'N·m')}
            label={`Limits ${bandWords(props.value.band, format)}`}
          />
        </SettledInFull>
      </div>
      <Show when={proposal()}>{(reckoned) => <ProposalShown proposal={reckoned()} folded />}</Show>
    </section>
  )
}

/** The answer stands at the top: that is where the eye has to go. */
function settledNow(setAnew: (is: boolean) => void): void {
  setAnew(false)
  window.scrollTo({ top: 0 })
}

function NothingToSettle(props: { known: boolean }) {
  const scope = useJob()
  return (
    <EmptyState title={props.known ? 'No torque to decide here' : 'The plan has no such joint and pass'}>
      <p>
        <Show when={props.known}>The plan publishes a torque for this pass, or has no such pass. </Show>
        Torques that nobody published stand in the audit, each with a way here.
      </p>
      <a class="button" href={auditHref(scope.job().id)}>
        To the audit
      </a>
    </EmptyState>
  )
}
