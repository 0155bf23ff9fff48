import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { hashSecret } from '../lib/tokens.ts'

/** The invitations that are open at `now` (ISO 8601), in the order in which they were made. */
export async function findInvitations(db: Kysely<Database>, now: string) {
  return openAt(db, now).select(['id', 'name', 'email', 'role', 'ends_at', 'nonce']).orderBy('id').execute()
}

/** The open invitation that a link's token opens. */
export async function findInvitation(db: Kysely<Database>, token: string, now: string) {
  return openAt(db, now)
    .select(['id', 'name', 'email', 'role'])
    .where('token_hash', '=', hashSecret(token))
    .executeTakeFirst()
}

/** What the mail of an invitation says, as long as that is open. */
export async function findInvitationMail(db: Kysely<Database>, outboxId: string, now: string) {
  return openAt(db, now)
    .innerJoin('outbox', 'outbox.invitation_id', 'invitation.id')
    .select([
      'invitation.name',
      'invitation.email',
      'invitation.role',
      'invitation.language',
      'invitation.nonce',
    ])
    .where('outbox.id', '=', outboxId)
    .executeTakeFirst()
}

function openAt(db: Kysely<Database>, now: string) {
  return db.selectFrom('invitation').where('invitation.ends_at', '>', now)
}
