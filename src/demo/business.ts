import { hashPassword } from '../account/password.ts'
import { insertAccount } from '../account/queries.ts'
import type { GivenRole } from '../db/schema/accounts.ts'
import type { Deps } from '../deps.ts'
import { setUpBusiness } from '../first-run/first-run.ts'
import { readSetUp } from '../first-run/form.ts'
import { FormFields } from '../http/form-fields.ts'
import { confirmFigures, findNotLookedAt } from '../rates/looked-at.ts'
import { asOneText } from '../rates/start/start-figure.ts'
import { withDemoCosts } from './costs.ts'

/** Where the invented contractor works. */
export const TIME_ZONE = 'America/Chicago'

/** Invented people who may sign in. They stand in print, so this is for nothing but the demonstration. */
export const OWNER = {
  name: 'Juniper Vale',
  email: 'owner@fernhollow.example',
  password: 'three wheelbarrows before noon',
}
export const OFFICE = {
  name: 'Sedge Wren',
  email: 'office@fernhollow.example',
  password: 'the phone beside the seed drawer',
}
export const HELPER = {
  name: 'Moss Tanager',
  email: 'helper@fernhollow.example',
  password: 'rakes lean on the shed wall',
}

/** The set-up form of an invented contractor with six finishes; every figure in it is invented too. */
const SET_UP: Record<string, string | string[]> = {
  'owner.name': OWNER.name,
  'owner.email': OWNER.email,
  'owner.password': OWNER.password,
  'business.name': 'Fernhollow Beds',
  'business.phone': '(555) 555-0100',
  'business.email': 'beds@fernhollow.example',
  'business.timeZone': TIME_ZONE,
  'business.laborHoursADay': '14',
  'business.quoteHoldsDays': '30',
  'business.answerWithinDays': '2',
  'workingDays[]': ['1', '2', '3', '4', '5'],
  units: 'us',
  currency: 'USD',
  tiers: '5; 12',
  ...rates('shredded-wood', '84-104', '78-96', '72-88', '31'),
  ...rates('dyed-wood', '94-116', '88-108', '82-100', '37'),
  ...rates('bark-nuggets', '104-128', '98-120', '92-112', '44'),
  ...rates('pine-straw', '11.50-14.50', '11-13.50', '10-12.50', '5.50'),
  ...rates('compost', '78-96', '72-89', '67-83', '34'),
  ...rates('stone', '130-158', '123-151', '117-143', '58'),
  'extras.edging.lower': '1.60',
  'extras.edging.upper': '2.40',
  'extras.weeding.lower': '0.18',
  'extras.weeding.upper': '0.30',
  minimumCharge: '180',
  laborHoursPerVolume: '0.8',
  'costs.wage': '34',
  'travel.0.postcodes': '69401, 69402, 69403',
  'travel.0.charge': '0',
  'travel.1.postcodes': '694*',
  'travel.1.charge': '35',
}

function rates(slug: string, small: string, middling: string, large: string, material: string) {
  const columns = [small, middling, large].flatMap((range, column) => {
    const [lower, upper] = range.split('-') as [string, string]
    return [
      [`rates.${slug}.${column}.lower`, lower],
      [`rates.${slug}.${column}.upper`, upper],
    ]
  })
  return { ...Object.fromEntries(columns), [`material.${slug}`]: material }
}

/** Sets the invented business up, with somebody in the office and a helper. Gives the owner's id. */
export async function openDemoBusiness(deps: Deps): Promise<number> {
  const reading = await readSetUp(new FormFields(SET_UP))
  if (!reading.ok) throw new Error(`The demonstration's set-up is faulty: ${JSON.stringify(reading.errors)}`)
  const { values } = reading
  const ownerId = await setUpBusiness(deps, { ...values, rateTable: withDemoCosts(values.rateTable) })
  await addStaff(deps, HELPER, 'helper')
  await addStaff(deps, OFFICE, 'office')
  await lookAtMost(deps, ownerId)
  return ownerId
}

// Nobody takes an invitation here: visitors sign in with what is printed.
async function addStaff(deps: Deps, { password, ...person }: typeof HELPER, role: GivenRole): Promise<void> {
  const password_hash = await hashPassword(password)
  const made_at = deps.now().toString()
  await deps.db.transaction().execute(trx => insertAccount(trx, { ...person, role, password_hash, made_at }))
}

/** Juniper has looked at what she knows from her own beds; how far other people are out she hasn't, and is told so. */
async function lookAtMost(deps: Deps, ownerId: number): Promise<void> {
  const unknown = ['measuring.tape', 'measuring.paces', 'measuring.eye', 'lying.unsure', 'promise', 'step']
  const figures = (await findNotLookedAt(deps.db, deps.now())).flatMap(group => group.figures)
  const known = figures.filter(({ key }) => !unknown.includes(key))
  await confirmFigures(
    deps,
    ownerId,
    known.map(({ key, now }) => ({ key, figure: asOneText(now) })),
  )
}
