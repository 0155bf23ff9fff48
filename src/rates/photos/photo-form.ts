import type { Deps } from '../../deps.ts'
import type { Errors } from '../../http/form-fields.ts'
import { uploadedFields, uploadedFile } from '../../http/uploads.ts'
import { readPicture } from '../../photos/read-picture.ts'
import { findPhoto, keepPhoto } from './photos.ts'

/** What the form wants: the photo that the finish is to have, and what has to be shown again. */
export interface PhotoWanted {
  photo: string | null
  /** A photo that this form, or one before it that wasn’t saved, brought. */
  uploaded: string | null
  drawn?: boolean
}

/**
 * Reads the form of a finish's photo. A photo that is right is kept at once, so that it isn't lost where the form has
 * to be shown again; of one that isn't nothing is kept.
 */
export async function readPhotoForm(
  deps: Deps,
  accountId: number,
  body: unknown,
  before: string | null,
): Promise<{ wanted: PhotoWanted; seen: string; errors: Errors }> {
  const fields = uploadedFields(body)
  const errors: Errors = {}
  const file = uploadedFile(body, 'photo')
  let uploaded = await keptBefore(deps, fields.uploaded ?? '')
  if (file) {
    const read = await readPicture(new Uint8Array(await file.arrayBuffer()), file.type)
    if (read.ok) uploaded = await keepPhoto(deps, accountId, read.picture)
    else errors.photo = read.fault
  }
  const drawn = fields.drawn === 'yes'
  if (file && drawn)
    errors.drawn = 'Either the photo or the drawn swatch: untick this, or leave the photo away.'
  if (!file && !uploaded && !drawn && before === null) errors.photo = 'Choose a photo.'
  const photo = drawn ? null : (uploaded ?? before)
  return { wanted: { photo, uploaded, drawn }, seen: fields.seen ?? '', errors }
}

async function keptBefore(deps: Deps, name: string): Promise<string | null> {
  return (await findPhoto(deps.db, name)) ? name : null
}
