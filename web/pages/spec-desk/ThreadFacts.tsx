/** The thread and the class in figures: what people look up most. */
import { Show } from 'solid-js'
import { format } from '../../format'
import { useCalculator } from './fields'
import { answerOf } from './part'
import { Facts } from './sheet'
import { kN, mm } from './words'

export function ThreadFacts() {
  const { calculation } = useCalculator()
  const facts = (): [string, string][] => {
    const size = answerOf(calculation().thread)
    if (!size) return []
    const grade = answerOf(calculation().tension)?.grade
    return [
      ['Nominal diameter', `${mm(size.dMm)} mm`],
      ['Pitch', `${format.number(size.pitchMm)} mm${size.tpi ? `, ${size.tpi} an inch` : ''}`],
      ['Pitch diameter d2', `${format.number(size.d2Mm)} mm`],
      ['Root of the bolt d3', `${format.number(size.d3Mm)} mm`],
      ['Minor of the hole D1', `${format.number(size.D1Mm)} mm`],
      ['Stress area', `${mm(size.stressAreaMm2)} mm²`],
      ...(grade
        ? ([
            [`${grade.grade}: tensile strength`, `${format.number(grade.rmMPa, 0)} MPa`],
            ['Yield', `${format.number(grade.yieldMPa, 0)} MPa`],
            ['Proof load', `${kN(grade.proofMPa * size.stressAreaMm2)} kN`],
          ] as [string, string][])
        : []),
      ...(size.hand === 'left' ? ([['Hand', 'left']] as [string, string][]) : []),
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
