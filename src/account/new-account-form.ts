import { readEmail, readLine } from '../business/form.ts'
import type { FormFields } from '../http/form-fields.ts'
import { type Key, t } from '../language/catalogue.ts'
import { LEAST_CHARACTERS, MOST_CHARACTERS, passwordFault } from './password-rules.ts'

export interface NewAccount {
  name: string
  email: string
  password: string
}

/** Reads `<group>.name`, `.email` and `.password`; a password is taken as typed, spaces and all. */
export function readNewAccount(fields: FormFields, group: string, ownWords: string[]): NewAccount {
  const name = readLine(fields, `${group}.name`, 100, 'a name')
  const email = readEmail(fields, `${group}.email`, 'to sign in with')
  const password = fields.typed[`${group}.password`] ?? ''
  const fault = passwordFault(password, [...ownWords, name, email])
  if (fault) fields.errors[`${group}.password`] = passwordFaultText('en', fault)
  return { name, email, password }
}

export function passwordFaultText(language: 'en' | 'es', fault: Key): string {
  return t(language, fault, { least: LEAST_CHARACTERS, most: MOST_CHARACTERS })
}
