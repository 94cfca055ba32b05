/** The thread and the class in figures: what people look up most. */
import { Show } from 'solid-js'
import { useDesk } from './ask'
import { Facts } from './Facts'
import { answerOf } from './part'
import { kN, mm } from './words'

export function ThreadFacts() {
  const { desk } = useDesk()
  const facts = (): [string, string][] => {
    const found = answerOf(desk().thread)
    if (!found) return []
    const grade = answerOf(desk().tension)?.grade
    return [
      ['Nominal diameter', `${mm(found.dMm)} mm`],
      ['Pitch', `${formatted(found.pitchMm)} mm${found.tpi ? `, ${found.tpi} an inch` : ''}`],
      ['Pitch diameter d2', `${formatted(found.d2Mm)} mm`],
      ['Root of the bolt d3', `${formatted(found.d3Mm)} mm`],
      ['Minor of the hole D1', `${formatted(found.D1Mm)} mm`],
      ['Stress area', `${mm(found.stressAreaMm2)} mm²`],
      ...(grade
        ? ([
            [`${grade.grade}: tensile strength`, `${Math.round(grade.rmMPa)} MPa`],
            ['Yield', `${Math.round(grade.yieldMPa)} MPa`],
            ['Proof load', `${kN(grade.proofMPa * found.stressAreaMm2)} kN`],
          ] as [string, string][])
        : []),
      ...(found.hand === 'left' ? ([['Hand', 'left']] as [string, string][]) : []),
    ]
  }
  return (
    <Show when={facts().length > 0}>
      <section class="desk-answer stack" aria-labelledby="desk-thread">
        <h3 id="desk-thread">Thread and class</h3>
        <Facts of={facts()} />
      </section>
    </Show>
  )
}

const formatted = (value: number) => String(Math.round(value * 1000) / 1000)
