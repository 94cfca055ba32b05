/** Whose screen answers what, in the demonstration; and whether the first look was closed on this device. */

export interface Look {
  personId: string
  /** What they are in the shop. */
  as: string
  /** What they ask of their screen. */
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
      'Engines by what needs attention, each with the one reason it waits, in words fit to read aloud on the phone, beside what was promised.',
    screen: 'Board',
    href: '/',
  },
  {
    personId: 'bram',
    as: 'technician',
    asks: 'What is the next thing to do, and what must not be done yet?',
    answers:
      'One joint, one number in the unit of the wrench in hand, the next head ringed. He was called away at nut 3 of 6: taken up again, the pass begins at nut 1.',
    screen: 'Bench',
    href: '/jobs/e-101/bench/F5',
  },
  {
    personId: 'odile',
    as: 'supervisor',
    asks: 'What must I sign before it gets hidden, and what stands against letting it go?',
    answers:
      'E-107 ran well and may not leave: one rod cap was never signed by a second person, and the sump is on. Below stands every fastener: who, when, with which wrench.',
    screen: 'Audit',
    href: '/jobs/e-107/audit',
  },
  {
    personId: 'jory',
    as: 'apprentice',
    asks: 'What may I do here, and what is not mine yet?',
    answers:
      'What is ready for him stands first, class B and C work only. Every other step says why it is not ready, or not his.',
    screen: 'Bench',
    href: '/jobs/e-101/bench',
  },
  {
    personId: 'dov',
    as: 'parts and tools',
    asks: 'Which wrench can be trusted, and which is out?',
    answers:
      'The crib, wrench by wrench: its range, its last check, when the next is due. TW-12 failed this morning, and the bench offers another in its place.',
    screen: 'Wrenches',
    href: '/shop/wrenches',
  },
]

const KEY = 'paintmark.first-look'

export function wasClosed(): boolean {
  try {
    return localStorage.getItem(KEY) === 'closed'
  } catch {
    return false
  }
}

export function keepClosed(): void {
  try {
    localStorage.setItem(KEY, 'closed')
  } catch {
    // Kept nowhere: it is closed until the page is loaded again.
  }
}
