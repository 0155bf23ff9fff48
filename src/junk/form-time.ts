import { linkToken, sameSecret } from '../lib/tokens.ts'

const PURPOSE = 'form begun'

/** What a form carries to say when it was given out: the second, and a signature over it and the form's own key. */
export function signTime(secretKey: string, formKey: string, at: Temporal.Instant): string {
  const second = Math.floor(at.epochMilliseconds / 1000).toString(36)
  return `${second}.${linkToken(secretKey, PURPOSE, `${formKey}\n${second}`)}`
}

/** For how many seconds somebody had a form, by what it carried; null where it carried nothing that we signed for it. */
export function secondsHad(
  secretKey: string,
  formKey: string,
  carried: unknown,
  at: Temporal.Instant,
): number | null {
  if (typeof carried !== 'string') return null
  const [second = '', signature = ''] = carried.split('.')
  if (!sameSecret(signature, linkToken(secretKey, PURPOSE, `${formKey}\n${second}`))) return null
  // A clock that was put back since counts as no time at all.
  return Math.max(0, Math.floor(at.epochMilliseconds / 1000) - Number.parseInt(second, 36))
}
