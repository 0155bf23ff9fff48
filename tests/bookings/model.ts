import type fc from 'fast-check'
import { expect } from 'vitest'
import type { Stage } from '../../src/db/schema/stages.ts'
import { cents } from '../../src/lib/decimal.ts'
import { FOLLOWING } from '../../src/requests/stage.ts'
import { OVER } from '../../src/requests/take-up-again.ts'

/** A quote: its labor hours by now, and what was added to it in cents. */
export interface ModelQuote {
  hours: string
  extra: number
  /** Whether 2 in deep is to be picked, and what was picked of it: '0-' nothing, '1-' that. */
  offers: boolean
  picked: string | null
  withdrawn: boolean
}

/** All that a life is known by; `shallow` once 2 in deep were picked. */
export interface Model {
  stage: Stage
  quotes: ModelQuote[]
  accepted: number[]
  day: string | null
  shallow: boolean
  /** Of each payment whether it still stands. */
  payments: boolean[]
  settled: boolean
  /** Days without room, and those whose room the owner set. */
  closed: string[]
  byHand: string[]
}

export interface Real {
  id: number
  number: string
}

export type Step = fc.AsyncCommand<Model, Real>

/** A step as the model has it, undefined where it is refused; and as the application does it. */
export type MakeStep = (
  name: string,
  predict: (model: Model) => Model | undefined,
  act: (real: Real, model: Model) => Promise<unknown>,
) => Step

/** What each payment of a life is, and what goes back of them in the end. */
export const PAYMENT = 10
export const BACK = 5

export function born(): Model {
  const nothing = { day: null, shallow: false, settled: false, closed: [], byHand: [] }
  return { stage: 'new', quotes: [], accepted: [], payments: [], ...nothing }
}

/** What the database has to hold by the model. */
export function known({ stage, quotes, accepted, day, payments, settled }: Model) {
  const hours = day && quotes[Math.max(...accepted) - 1]!.hours
  const paid = payments.filter(stands => stands).length * PAYMENT
  return {
    ...{ stage, quotes: quotes.length, accepted, day, hours: hours && cents(hours), wrong: 0 },
    held: cents(paid - (settled ? BACK : 0)),
    collects: OVER.includes(stage) && paid > 0 && !settled,
  }
}

export function isNewestAccepted({ quotes, accepted }: Model): boolean {
  return quotes.length > 0 && accepted.includes(quotes.length)
}

/** The model with other things known of its newest quote. */
export function withNewest(model: Model, change: Partial<ModelQuote>): Model {
  return { ...model, quotes: [...model.quotes.slice(0, -1), { ...model.quotes.at(-1)!, ...change }] }
}

/** Makes steps that look, after each, whether the database holds what the model knows. */
export function stepMaker(look: (real: Real) => Promise<unknown>): MakeStep {
  return (name, predict, act) => ({
    toString: () => name,
    check: () => true,
    async run(model, real) {
      const after = predict(model)
      const done = await act(real, model).then(
        () => true,
        () => false,
      )
      expect({ name, model, done }).toEqual({ name, model, done: after !== undefined })
      if (after && after.stage !== model.stage) expect(FOLLOWING[model.stage]).toContain(after.stage)
      Object.assign(model, after)
      expect({ name, found: await look(real) }).toEqual({ name, found: known(model) })
    },
  })
}
