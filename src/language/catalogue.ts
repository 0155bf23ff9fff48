import * as accepted from './accepted.ts'
import * as account from './account.ts'
import * as asked from './asked.ts'
import * as beds from './beds.ts'
import * as bill from './bill.ts'
import * as booking from './booking.ts'
import * as calendar from './calendar.ts'
import * as card from './card.ts'
import * as cautions from './cautions.ts'
import * as change from './change.ts'
import * as choose from './choose.ts'
import * as closing from './closing.ts'
import * as common from './common.ts'
import * as confirm from './confirm.ts'
import * as contact from './contact.ts'
import { wordsOf } from './countries.ts'
import * as days from './days.ts'
import * as deposit from './deposit.ts'
import * as errors from './errors.ts'
import * as faults from './faults.ts'
import * as form from './form.ts'
import * as halves from './halves.ts'
import * as held from './held.ts'
import type { Language } from './language.ts'
import * as loads from './loads.ts'
import * as mail from './mail.ts'
import * as miles from './miles.ts'
import * as moves from './moves.ts'
import * as near from './near.ts'
import * as offered from './offered.ts'
import * as offers from './offers.ts'
import * as onHand from './on-hand.ts'
import * as orders from './orders.ts'
import * as ownPage from './own-page.ts'
import * as paper from './paper.ts'
import * as passkeys from './passkeys.ts'
import * as people from './people.ts'
import * as photos from './photos.ts'
import * as privacy from './privacy.ts'
import * as quote from './quote.ts'
import * as range from './range.ts'
import * as rates from './rates.ts'
import * as reminders from './reminders.ts'
import * as requests from './requests.ts'
import { type KeyOf, type Params, tOf, together } from './sentences.ts'
import * as sheet from './sheet.ts'
import * as sorry from './sorry.ts'
import * as staff from './staff.ts'
import * as stops from './stops.ts'
import * as strip from './strip.ts'
import * as texts from './texts.ts'
import * as units from './units.ts'
import * as visits from './visits.ts'
import * as ways from './ways.ts'
import * as week from './week.ts'
import * as why from './why.ts'

const features = [
  accepted,
  account,
  asked,
  beds,
  bill,
  booking,
  calendar,
  card,
  cautions,
  change,
  choose,
  closing,
  common,
  confirm,
  contact,
  days,
  deposit,
  errors,
  faults,
  form,
  halves,
  held,
  loads,
  mail,
  miles,
  moves,
  near,
  offered,
  offers,
  onHand,
  orders,
  ownPage,
  paper,
  passkeys,
  people,
  photos,
  privacy,
  quote,
  range,
  rates,
  reminders,
  requests,
  staff,
  stops,
  strip,
  sheet,
  sorry,
  texts,
  units,
  visits,
  ways,
  week,
  why,
] as const

/** Every sentence. */
export const catalogue = together(...features)

/** The key of any sentence, so that tsc finds one that isn't there. */
export type Key = KeyOf<(typeof features)[number]>

const tell = tOf(catalogue)

/** The sentence of any feature, by its key, with its {params} and the words of a country filled in. */
export function t(language: Language, key: Key, params?: Params, country = 'US'): string {
  return tell(language, key, { ...wordsOf(country, language), ...params })
}

export type Translate = (key: Key, params?: Params) => string

/** Tells sentences in one language, spelled as in the country of the business. */
export function translator(language: Language, country?: string): Translate {
  return (key, params) => t(language, key, params, country)
}

/** A key where tsc would see a text alone, as in an object that is handed on. */
export function keyed(key: Key): Key {
  return key
}
