export type Stage =
  | 'new'
  | 'visit set'
  | 'measured'
  | 'quoted'
  | 'day asked'
  | 'week chosen'
  | 'booked'
  | 'part done'
  | 'done'
  | 'billed'
  | 'paid'
  | 'called off'
  | 'not taken'
  | "can't do"
  | 'lapsed'

/** The headings of the queue, in order. */
export const STEPS = ['Call', 'Measure', 'Price', 'Follow up', 'Load', 'Bill', 'Collect'] as const

export type Step = (typeof STEPS)[number]
