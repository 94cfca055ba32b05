/** Whose screen answers what, in the demonstration. */
export interface Look {
  personId: string
  /** What they are in the shop. */
  as: string
  /** What they want to know. */
  asks: string
  /** How it answers, and what to look at. */
  answers: string
  /** Where the answer stands. */
  screen: string
  href: string
}

export const LOOKS: readonly Look[] = [
  {
    personId: 'hattie',
    as: 'service writer',
    asks: 'Why does this engine wait, and what do I tell its owner?',
    answers:
      'The engines that need attention come first, each with the one reason it waits, in words fit to read out on the phone, and the date promised.',
    screen: 'Board',
    href: '/',
  },
  {
    personId: 'bram',
    as: 'technician',
    asks: 'What do I do next?',
    answers:
      'One joint, one number in the unit of the wrench in hand, a ring around the next nut. He was called away at nut 3 of 6, so the pass starts again at nut 1.',
    screen: 'Bench',
    href: '/jobs/e-101/bench/F5',
  },
  {
    personId: 'odile',
    as: 'supervisor and owner',
    asks: 'What must I sign before it is covered, and can this engine go?',
    answers:
      'E-107 ran well and still cannot leave: one rod cap has no second signature, and the sump covers it. The record below shows every fastener: who, when, with which wrench.',
    screen: 'Audit',
    href: '/jobs/e-107/audit',
  },
  {
    personId: 'jory',
    as: 'technician, second-year apprentice',
    asks: 'What can I work on?',
    answers:
      'What is ready for him comes first, class B and C only. Every other step says why he cannot start it.',
    screen: 'Bench',
    href: '/jobs/e-101/bench',
  },
  {
    personId: 'dov',
    as: 'parts and tool store',
    asks: 'Which wrenches are good, and which are out?',
    answers:
      'Every wrench with its range, its last check and when the next is due. TW-12 failed its check, and the bench offers another in its place.',
    screen: 'Wrenches',
    href: '/shop/wrenches',
  },
]
