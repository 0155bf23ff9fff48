import type { Deps } from '../deps.ts'
import { secondsHad, signTime } from '../junk/form-time.ts'

/** What a form says of when it was given out: what it carried already, where that is ours and of this form, else now. */
export function begunOf({ secretKey, now }: Deps, submissionKey: string, carried?: unknown): string {
  const isOurs = secondsHad(secretKey, submissionKey, carried, now()) !== null
  return isOurs ? (carried as string) : signTime(secretKey, submissionKey, now())
}
