import { randomUUID } from 'node:crypto'
import type { Business } from '../business/queries.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Deps } from '../deps.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import type { PhotoView } from '../requests/photos/view.ts'
import { viewPhotos } from '../requests/photos/view.ts'
import { findBilledAt, isBilled } from './remove-photo.ts'
import { findJobPhotos, findTroubles } from './troubles.ts'

/** Photos of a job, and what was damaged or is to be put right, as its page shows them; `key` is that of the next form. */
export interface TroublesView {
  photos: JobPhotoView[]
  rows: { id: number; words: string; said: string; photo: JobPhotoView | null; isOpen: boolean }[]
  kinds: { value: string; label: string }[]
  key: string
}

/** A photo of a job, and whether it can be taken out. */
type JobPhotoView = PhotoView & { mayRemove: boolean }

export async function viewTroubles(
  deps: Deps,
  { time_zone }: Business,
  { id, number, stage }: { id: number; number: string; stage: Stage },
  language: Language,
): Promise<TroublesView> {
  const rows = await findJobPhotos(deps.db, id)
  const billedAt = await findBilledAt(deps.db, { id, stage })
  const photos = viewPhotos(rows, `/days/jobs/${number}`).map((photo, index) => ({
    ...photo,
    mayRemove: !isBilled(rows[index]!, billedAt),
  }))
  const troubles = await findTroubles(deps.db, id)
  const shown = new Set(troubles.map(({ photo_id }) => photo_id))
  return {
    photos: photos.filter(photo => !shown.has(photo.id)),
    rows: troubles.map(({ id, kind, words, day, photo_id, made_at, done_at, made_by_name }) => {
      const params = {
        day: day ? dayInWords(day, language) : '',
        name: made_by_name,
        when: momentInWords(made_at, time_zone, language),
      }
      const state = kind === 'damage' ? 'damaged' : done_at ? 'came-back' : 'comes-back'
      return {
        ...{ id, words, isOpen: kind === 'come back' && done_at === null },
        said: t(language, SAID[state], params),
        photo: photos.find(photo => photo.id === photo_id) ?? null,
      }
    }),
    kinds: [
      { value: 'damage', label: t(language, 'closing.kind-damage') },
      { value: 'come back', label: t(language, 'closing.kind-come-back') },
    ],
    key: randomUUID(),
  }
}

const SAID = {
  damaged: 'closing.said-damage',
  'came-back': 'closing.said-came-back',
  'comes-back': 'closing.said-come-back',
} as const
