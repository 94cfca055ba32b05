/** The thread and the class in figures: what people look up most. */
import { Show } from 'solid-js'
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
      ['Pitch', `${formatted(size.pitchMm)} mm${size.tpi ? `, ${size.tpi} an inch` : ''}`],
      ['Pitch diameter d2', `${formatted(size.d2Mm)} mm`],
      ['Root of the bolt d3', `${formatted(size.d3Mm)} mm`],
      ['Minor of the hole D1', `${formatted(size.D1Mm)} mm`],
      ['Stress area', `${mm(size.stressAreaMm2)} mm²`],
      ...(grade
        ? ([
            [`${grade.grade}: tensile strength`, `${Math.round(grade.rmMPa)} MPa`],
            ['Yield', `${Math.round(grade.yieldMPa)} MPa`],
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

const formatted = (value: number) => String(Math.round(value * 1000) / 1000)
