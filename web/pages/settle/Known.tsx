/** What is asked and what is known of the joint, with the drawing that says most: the bolt in its hole, else its map. */
import { createMemo, Show } from 'solid-js'
import { type ProposalJoint, thread } from '../../../shared/fastener'
import { holeAt } from '../../../shared/job/verdicts/holes'
import { isRefusal } from '../../../shared/log'
import type { AdoptedJoint, AdoptedStep } from '../../../shared/plan/types'
import { passesWords } from '../../../shared/plan/words'
import { counted, fastenersInWords } from '../../../shared/words'
import { BoltInHole } from '../../drawings/BoltInHole'
import { BoltMap } from '../../drawings/BoltMap'
import type { BoltSection } from '../../drawings/bolt-in-hole'
import { headsOf } from '../../drawings/heads'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { fastenerWords } from '../../job/step/step-words'
import { Fact } from '../../ui/Fact'
import { Invented } from '../../ui/Invented'

interface KnownProps {
  joint: AdoptedJoint
  step: AdoptedStep
  pass: number
  known: ProposalJoint
}

export function Known(props: KnownProps) {
  const scope = useJob()
  const plan = () => scope.planned().plan
  const section = createMemo(() => sectionOf(props))
  const recorded = () =>
    (scope.job().readings[props.joint.id] ?? []).filter(({ pass }) => pass === props.pass).length
  return (
    <section class="settle-known" aria-labelledby="settle-known-head">
      <div class="settle-facts">
        <h2 id="settle-known-head">{props.joint.title}</h2>
        <dl>
          <Fact term="Step">
            {props.step.id} {props.step.title}
          </Fact>
          <Fact term="Asked">
            pass {props.pass} of {props.joint.passes.length}: {passesWords(props.joint.passes, format)}
          </Fact>
          <Fact term="Fastener">
            {fastenerWords(props.joint)} {props.joint.fastener}
          </Fact>
          <Fact term="Lubrication">{props.joint.lubrication}</Fact>
          <Fact term="Class">
            {props.joint.class}; this shop allows {format.number(props.known.tolerancePct, 1)} % either side
          </Fact>
          <Fact term="Goes into">{holeWords(props.known)}</Fact>
          <Fact term="The plan’s source">
            {plan().source} <Invented plan={plan()} />
          </Fact>
          <Show when={(props.joint.notes ?? []).length > 0}>
            <Fact term="Note">{(props.joint.notes ?? []).join(' ')}</Fact>
          </Show>
          <Show when={recorded() > 0}>
            <Fact term="Recorded already">
              {counted(recorded(), 'reading')}, judged by the value in force
            </Fact>
          </Show>
        </dl>
      </div>
      <figure class="settle-drawing stack">
        <Show
          when={section()}
          fallback={
            <BoltMap
              positions={props.joint.positions}
              outline={props.joint.outline}
              heads={headsOf(scope.planned(), scope.shop(), props.step, props.joint)}
              height={220}
              fit
              label={`Bolt map of ${props.joint.title}`}
            />
          }
        >
          {(bolt) => (
            <BoltInHole
              section={bolt()}
              height={260}
              against={props.known.bottoms !== undefined}
              label={`${props.joint.title} in its hole, to scale: ${holeWords(props.known)}`}
            />
          )}
        </Show>
        <figcaption class="small pencil">
          {section()
            ? 'To scale, from plan and hole register'
            : 'The hole is not in the plan: its depth is not drawn'}
        </figcaption>
      </figure>
    </section>
  )
}

function holeWords({ holeMaterial, engagementMm, inserts, worn, stripped }: ProposalJoint): string {
  return [
    holeMaterial ?? 'not known to the plan',
    ...(engagementMm === undefined ? [] : [`${format.number(engagementMm, 1)} mm of thread holds`]),
    ...(inserts?.length ? ['renewed with an insert'] : []),
    ...(worn?.length ? [`thread worn in ${fastenersInWords('hole', worn)}`] : []),
    ...(stripped?.length ? [`thread stripped in ${fastenersInWords('hole', stripped)}`] : []),
  ].join('; ')
}

/** The first place of the joint, as plan and register have it; nothing where either is silent. */
function sectionOf(props: KnownProps): BoltSection | undefined {
  const scope = useJob()
  const { hole, lengthMm, id, positions } = props.joint
  const size = thread(props.joint.thread)
  const first = positions[0]
  if (!hole || lengthMm === undefined || isRefusal(size) || !first) return undefined
  const entry = holeAt(scope.job(), id, first.n)
  const holeDepthMm = entry?.depthMm ?? hole.depthMm
  return {
    dMm: size.dMm,
    pitchMm: size.pitchMm,
    boltLengthMm: scope.job().fasteners[id]?.[first.n]?.lengthMm ?? lengthMm,
    stackMm: hole.stackMm,
    washerMm: hole.washerMm ?? 0,
    ...(hole.aboveMm === undefined ? {} : { aboveMm: hole.aboveMm }),
    threadDepthMm: entry?.threadMm ?? hole.threadMm,
    ...(holeDepthMm === undefined ? {} : { holeDepthMm }),
    ...(entry?.insert
      ? {
          insert: {
            kind: entry.insert.kind,
            lengthMm: entry.insert.lengthMm,
            setDownMm: entry.insert.setDownMm ?? 0,
          },
        }
      : {}),
  }
}
