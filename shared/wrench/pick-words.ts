/** What speaks against a wrench, in words for the one who reaches for it. */
import type { Figures } from '../words'
import type { Demerit, Picked } from './pick'

const WORDS: Record<Demerit, (picked: Picked, figures: Figures) => string> = {
  failed: () => 'failed its check: do not use',
  out_for_check: () => 'out for its check',
  dropped: () => 'dropped: do not use before it is checked',
  out_of_date: () => 'its check is out of date',
  out_of_range: ({ wrench, setting }, { number }) =>
    `${setting ? `${number(setting.value, 1)} ${setting.unit}` : 'this'} is outside its scale, ${number(wrench.min)}–${number(wrench.max)} ${wrench.unit}`,
  no_room: ({ room }, { number }) =>
    `its ±${number(room?.deviationPct ?? 4)} % and the step of its scale are wider than the band`,
  away: ({ away }) => away ?? 'not in the crib',
  low_on_scale: () => 'in the lowest fifth of its scale, where it is less accurate',
  between_marks: () => 'the number lies between two marks',
  other_unit: ({ wrench }) => `its scale is in ${wrench.unit}`,
}

/** Every reason against, in the order they weigh. */
export const againstWrench = (picked: Picked, figures: Figures): string[] =>
  picked.against.map((demerit) => WORDS[demerit](picked, figures))
