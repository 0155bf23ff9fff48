import type { Kysely } from 'kysely'
import { requireBusiness } from '../../business/queries.ts'
import type { Database } from '../../db/schema.ts'
import { momentInWords } from '../../language/dates-in-words.ts'
import type { DraftState } from './state.ts'

/** Tells whoever sent a form of the draft that somebody was faster; `draft` is as it stands now. */
export async function overtakenInWords(db: Kysely<Database>, { saved }: DraftState): Promise<string> {
  const { time_zone } = await requireBusiness(db)
  const since = saved
    ? `${saved.by} saved this draft on ${momentInWords(saved.at, time_zone, 'en')}, after you opened this form.`
    : 'The rates changed after you opened this form: a draft was put in force or dropped, or a version was made.'
  return `${since} What you typed wasn’t saved, but it’s still here. If it’s right, save it again.`
}
