import type { Kysely, Transaction } from 'kysely'
import type { JobCertificateTable } from '../db/schema/quotes.ts'
import type { Database } from '../db/schema.ts'
import { datedDay } from '../language/dates-in-words.ts'
import { exemptBy, type Firm, isPast } from './firms.ts'

/** A certificate by which one job is without tax, until its last day, 'YYYY-MM-DD', or without any. */
export type JobCertificate = Pick<JobCertificateTable, 'number' | 'until' | 'file_id'>

export async function findJobCertificate(
  db: Kysely<Database>,
  quoteRequestId: number,
): Promise<JobCertificate | undefined> {
  return db
    .selectFrom('job_certificate')
    .select(['number', 'until', 'file_id'])
    .where('quote_request_id', '=', quoteRequestId)
    .executeTakeFirst()
}

/** The file of a job's certificate. */
export async function findJobCertificateFile(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('job_certificate')
    .innerJoin('kept_file', 'kept_file.id', 'job_certificate.file_id')
    .select(['kept_file.kind', 'kept_file.bytes'])
    .where('quote_request_id', '=', quoteRequestId)
    .executeTakeFirst()
}

/** Keeps the certificate of a job, or another one; none at all takes it away. */
export async function keepJobCertificate(
  trx: Transaction<Database>,
  quoteRequestId: number,
  certificate: JobCertificate | null,
  saved: { at: Temporal.Instant; by: number },
): Promise<void> {
  if (!certificate) {
    await trx.deleteFrom('job_certificate').where('quote_request_id', '=', quoteRequestId).execute()
    return
  }
  const row = { ...certificate, saved_at: saved.at.toString(), saved_by: saved.by }
  await trx
    .insertInto('job_certificate')
    .values({ quote_request_id: quoteRequestId, ...row })
    .onConflict(conflict => conflict.column('quote_request_id').doUpdateSet(row))
    .execute()
}

function counts({ until }: JobCertificate, today: string): boolean {
  return until === null || until >= today
}

/** The certificate by which a job's price starts without tax: its own, while that is good, else its firm's; '' for neither. */
export function exemptForJob(own: JobCertificate | undefined, firm: Firm | undefined, today: string): string {
  return own && counts(own, today) ? own.number : exemptBy(firm, today)
}

/** Whether a certificate that is given is the job's or the firm's own, and has ended. */
export function hasEnded(
  own: JobCertificate | undefined,
  firm: Firm | undefined,
  number: string,
  today: string,
): boolean {
  return own?.number === number ? !counts(own, today) : isPast(firm, number, today)
}

/** How a job's certificate stands on a day. */
export function jobCertificateInWords(own: JobCertificate | undefined, today: string): string | null {
  if (!own) return null
  const named = `Tax exemption certificate ${own.number}, for this job`
  if (own.until === null) return `${named}, without an end date`
  return counts(own, today)
    ? `${named}, good through ${datedDay(own.until)}`
    : `${named}: it expired on ${datedDay(own.until)}`
}
