import type { FileKind } from '../db/schema/people.ts'
import { t } from '../language/catalogue.ts'
import { asJpeg, lookAtPicture, remakePicture } from '../photos/read-picture.ts'

/** The largest file, in bytes. */
const LARGEST_PAPER = 5_000_000
/** What a form may hold with it, so that one a little too large is refused beside its field. */
export const UPLOAD_LIMIT = 8_000_000
const LONGEST_SIDE = 2200
const QUALITY = 80

export type FileReading = { ok: true; kind: FileKind; bytes: Buffer } | { ok: false; fault: string }

/** Reads a PDF, as it is, or a picture, made anew without what phones write into it. */
export async function readPaper(file: File | null): Promise<FileReading> {
  if (!file) return { ok: false, fault: 'Choose a file.' }
  if (file.size > LARGEST_PAPER) return { ok: false, fault: 'That’s more than 5 MB.' }
  const bytes = Buffer.from(await file.arrayBuffer())
  if (bytes.subarray(0, 5).toString('latin1') === '%PDF-') return { ok: true, kind: 'application/pdf', bytes }
  const looked = await lookAtPicture(bytes, file.type, LARGEST_PAPER)
  const read = looked.ok
    ? await remakePicture(bytes, upright =>
        asJpeg(
          upright.resize(LONGEST_SIDE, LONGEST_SIDE, { fit: 'inside', withoutEnlargement: true }),
          QUALITY,
        ),
      )
    : looked
  if (read.ok) return { ok: true, kind: 'image/jpeg', bytes: read.made.jpeg }
  const { key, params } = read.fault
  const fault = key === 'photos.unreadable' ? 'Choose a PDF, a JPEG, or a PNG.' : t('en', key, params)
  return { ok: false, fault }
}
