import type { Kysely } from 'kysely'
import type { Database } from '../../db/schema.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { NotFound } from '../../http/errors.ts'
import { findNewestVersion } from '../queries.ts'
import { findDraft } from './queries.ts'

/** The next version as it stands: the open draft, or what one begins with as soon as something is saved in it. */
export interface DraftState {
  /** What a form carries to say which state it was filled in from. */
  seen: string
  body: RateTable
  basedOn: { id: number; version: number }
  /** Null while no draft is open. */
  saved: { at: string; by: string } | null
}

/**
 * The open draft, or the newest version while there is none.
 * @throws {NotFound} before set-up
 */
export async function requireDraftState(db: Kysely<Database>): Promise<DraftState> {
  const draft = await findDraft(db)
  if (draft)
    return {
      seen: seenOf(draft),
      body: draft.body,
      basedOn: { id: draft.based_on, version: draft.based_on_version },
      saved: { at: draft.saved_at, by: draft.saved_by_name },
    }
  const newest = await findNewestVersion(db)
  if (!newest) throw new NotFound()
  const { id, version, body } = newest
  return { seen: seenOfVersion(version), body, basedOn: { id, version }, saved: null }
}

/** A draft's state, as forms carry it. */
export function seenOf(draft: { id: number; revision: number }): string {
  return `${draft.id}.${draft.revision}`
}

/** That of a draft which would begin with a version. */
export function seenOfVersion(version: number): string {
  return `v${version}`
}
