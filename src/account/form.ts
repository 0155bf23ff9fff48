import { readEmail, readLine } from '../business/form.ts'
import type { GivenRole } from '../db/schema/accounts.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { type Translate, translator } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { isEmailAddress } from '../lib/email-address.ts'
import { LEAST_CHARACTERS, MOST_CHARACTERS, passwordFault } from './password-rules.ts'

const LONGEST_TYPED = 1000
const GIVEN_ROLES = ['helper', 'office'] as const satisfies GivenRole[]
const CHOOSE_ROLE = 'Choose what they do.'

/** What somebody signs in with, as typed. */
export interface Credentials {
  email: string
  password: string
}

/** Reads `email` and `password`; whatever is wrong with them is told as a sign-in that fails. */
export function readSignIn(fields: FormFields, say: Translate): FormReading<Credentials> {
  const [email, password] = [fields.text('email'), fields.secret('password')]
  const tooLong = email.length > LONGEST_TYPED || password.length > LONGEST_TYPED
  if (email === '' || password === '' || tooLong) fields.fault('email', say('account.no-match'))
  return fields.reading({ email, password })
}

/** Reads `email`, the address of whoever lost the password. */
export function readForgotten(fields: FormFields, say: Translate): FormReading<string> {
  const email = fields.text('email')
  if (!isEmailAddress(email)) fields.fault('email', say('account.forgot-email'))
  return fields.reading(email)
}

/** Reads `current` and `fresh`, the password that is to be; `ownWords` can't make up one. */
export async function readNewPassword(
  fields: FormFields,
  ownWords: string[],
  say: Translate,
): Promise<FormReading<{ current: string; fresh: string }>> {
  return fields.reading({
    current: fields.secret('current'),
    fresh: await readFreshPassword(fields, 'fresh', ownWords, say),
  })
}

/** Reads `fresh`, the password that is to be, of somebody whose password until now is lost. */
export async function readResetPassword(
  fields: FormFields,
  ownWords: string[],
  say: Translate,
): Promise<FormReading<string>> {
  return fields.reading(await readFreshPassword(fields, 'fresh', ownWords, say))
}

export interface NewAccount {
  name: string
  email: string
  password: string
}

/** Somebody who is asked to help, or into the office; `email` is '' where the link is only shown. */
export interface Invited {
  name: string
  email: string
  role: GivenRole
  language: Language
}

/** Reads whom the owner asks to help, `invite.…`: an address may be left out, where the link is passed on by hand. */
export function readInvited(fields: FormFields): FormReading<Invited> {
  const invite = fields.group('invite')
  const name = readLine(invite, 'name', 100, 'a name')
  const email = invite.text('email') === '' ? '' : readEmail(invite, 'email', 'to send the link to')
  const role = invite.choice('role', GIVEN_ROLES, CHOOSE_ROLE) ?? 'helper'
  const language = invite.choice('language', ['en', 'es'], 'Choose a language.') ?? 'en'
  return fields.reading({ name, email, role, language })
}

/** Reads `role`, which somebody of the staff is to have; a button alone sends it, so there is no field to say a fault beside. */
export function readRole(fields: FormFields): FormReading<GivenRole> {
  const role = GIVEN_ROLES.find(one => one === fields.text('role'))
  if (!role) fields.fault('', CHOOSE_ROLE)
  return fields.reading(role ?? 'helper')
}

/** Reads `name`, `email` and `password` of somebody who takes an invitation. */
export async function readAccepted(
  fields: FormFields,
  ownWords: string[],
  say: Translate,
): Promise<FormReading<NewAccount>> {
  const name = fields.line('name', {
    most: 100,
    missing: say('account.name-missing'),
    tooLong: say('account.name-long'),
  })
  const email = fields.text('email')
  if (!isEmailAddress(email)) fields.fault('email', say('account.forgot-email'))
  const password = await readFreshPassword(fields, 'password', [...ownWords, name, email], say)
  return fields.reading({ name, email, password })
}

/** Reads `name` of a new passkey, and what the browser answered. */
export function readPasskey(
  fields: FormFields,
  say: Translate,
): FormReading<{ name: string; passkey: string }> {
  const name = fields.line('name', {
    most: 60,
    missing: say('passkey.name-missing'),
    tooLong: say('passkey.name-long'),
  })
  return fields.reading({ name, passkey: fields.secret('passkey') })
}

/** Reads `name`, `email` and `password` of a group of fields; a password is taken as typed, spaces and all. */
export async function readNewAccount(account: FormFields, ownWords: string[]): Promise<NewAccount> {
  const name = readLine(account, 'name', 100, 'a name')
  const email = readEmail(account, 'email', 'to sign in with')
  const password = await readFreshPassword(account, 'password', [...ownWords, name, email], translator('en'))
  return { name, email, password }
}

async function readFreshPassword(fields: FormFields, field: string, ownWords: string[], say: Translate) {
  const password = fields.secret(field)
  const fault = await passwordFault(password, ownWords)
  if (fault) fields.fault(field, say(fault, { least: LEAST_CHARACTERS, most: MOST_CHARACTERS }))
  return password
}
