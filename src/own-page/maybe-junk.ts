import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { Language } from '../language/language.ts'
import type { MaybeJunkRow } from '../requests/maybe-junk/queries.ts'
import { findPhotos } from '../requests/photos/queries.ts'
import { viewPhotos } from '../requests/photos/view.ts'
import { type OwnPage, viewOwnPage } from './view.ts'

/** No row has this id, so whatever is looked up by it isn't there yet. */
const NOT_YET = 0

/**
 * The own page of what is held as maybe junk: as that of a request that just came in, but what would send a message or change other tables
 * comes once somebody has looked.
 */
export async function viewMaybeJunk(
  deps: Deps,
  business: Business,
  held: MaybeJunkRow,
  path: string,
  language: Language,
): Promise<OwnPage> {
  const { sending, number, understood, arrived_at, rate_table_id, ballpark } = held
  const { told, sentAs = 'beds', name, phone, email, street, postcode, gate, dog, note } = sending
  const request = {
    id: NOT_YET,
    customer_id: NOT_YET,
    number,
    stage: 'new',
    told,
    understood,
    put_in_by: 'homeowner',
    sent_as: sentAs,
    arrived_at,
    preferred_times: sending.preferredTimes,
    note,
    name,
    phone,
    email,
    email_confirmed_at: null,
    street,
    postcode,
    gate,
    dog,
    rate_table_id,
    result: ballpark,
  } as const
  const page = await viewOwnPage(deps, business, request, path, language)
  const photos = viewPhotos(await findPhotos(deps.db, held.id, 'maybe_junk_id'), path)
  return { ...page, photos, photoFields: null, mayRemovePhotos: false, mayCallOff: false, isWhole: false }
}
