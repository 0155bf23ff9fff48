import type { Generated, GeneratedAlways } from 'kysely'

export type Role = 'owner' | 'office' | 'helper'

/** The roles that the owner gives to others. */
export type GivenRole = Exclude<Role, 'owner'>

/** Whoever has left keeps the row that history points at, with `ended_at` set. An owner is always left. */
export interface AccountTable {
  id: GeneratedAlways<number>
  email: string
  name: string
  role: Role
  password_hash: string
  made_at: string
  ended_at: Generated<string | null>
  /** In which they signed in last, and get mail. */
  language: Generated<'en' | 'es'>
}

/** Where somebody is signed in: until `ends_at`, and no longer than `idle_days` without being used. */
export interface SessionTable {
  /** What pages call it by: its secret's hash never leaves the store. */
  id: GeneratedAlways<number>
  secret_hash: string
  account_id: number
  made_at: string
  seen_at: string
  ends_at: string
  idle_days: Generated<number>
  /** When its password was typed last; null where it came by a link. */
  proved_at: Generated<string | null>
  /** As 'Firefox', and the system it runs on; null where it didn't tell. */
  browser: Generated<string | null>
  system: Generated<string | null>
}

export interface SignInFailureTable {
  who_hash: string
  failures: number
  last_at: string
}

/**
 * The one link of an account at which a new password can be chosen; it goes when it is used. Of one that goes by mail the
 * nonce that it is made from.
 */
export interface PasswordResetTable {
  account_id: number
  token_hash: string
  nonce: Generated<string | null>
  made_at: string
  ends_at: string
}

/** Somebody who is asked to help, by a link; the row goes when it is used or taken back. `email` is '' where the link is only shown. */
export interface InvitationTable {
  id: GeneratedAlways<number>
  name: string
  email: string
  role: Generated<GivenRole>
  language: 'en' | 'es'
  token_hash: string
  nonce: string
  made_at: string
  ends_at: string
  made_by: number
}

/** That somebody of the staff got another role, and from whom; never changed. */
export interface RoleChangeTable {
  id: GeneratedAlways<number>
  account_id: number
  was: Role
  becomes: Role
  made_at: string
  made_by: number
}

/**
 * The app that makes somebody's codes. Being set up while `on_at` is null; `last_step` is the step of 30 seconds since 1970 whose code was used last.
 */
export interface AuthenticatorTable {
  account_id: number
  sealed_secret: string
  made_at: string
  on_at: Generated<string | null>
  last_step: Generated<number>
}

/** What proves somebody besides the password by a device of theirs; `transports` is how browsers reach it, parted by spaces. */
export interface PasskeyTable {
  id: GeneratedAlways<number>
  account_id: number
  credential_id: string
  /** Its COSE key, base64url. */
  public_key: string
  counter: number
  transports: string
  name: string
  made_at: string
  used_at: Generated<string | null>
}

/** A challenge that a passkey answered, so that it is never taken again; the row goes once the challenge is over anyway. */
export interface PasskeyChallengeTable {
  challenge_hash: string
  ends_at: string
}

/** A code that signs in once in place of one of the app or a passkey; the row goes when it is used. */
export interface RecoveryCodeTable {
  account_id: number
  code_hash: string
}

/** The one link of an account that signs in; it goes when it is used. */
export interface SignInLinkTable {
  account_id: number
  token_hash: string
  nonce: string
  made_at: string
  ends_at: string
}
