import type { Deps } from '../../deps.ts'
import type { FormFields } from '../../http/form-fields.ts'
import type { FormReading } from '../../http/posted.ts'
import { t } from '../../language/catalogue.ts'
import { readFinishPicture } from '../../photos/finish-picture.ts'
import { findPhoto, keepPhoto } from './photos.ts'

/** What the form wants: the photo that the finish is to have; null for its drawn swatch. */
export interface PhotoWanted {
  photo: string | null
  seen: string
}

/**
 * Reads the form of a finish's photo. A photo that is right is kept at once, and named by the field `uploaded` from
 * then on, so that it isn't lost where the form has to be shown again; of one that isn't nothing is kept.
 */
export async function readPhotoForm(
  fields: FormFields,
  deps: Deps,
  accountId: number,
  before: string | null,
): Promise<FormReading<PhotoWanted>> {
  const file = fields.file('photo')
  let uploaded = await keptBefore(deps, fields.text('uploaded'))
  if (file) {
    const read = await readFinishPicture(new Uint8Array(await file.arrayBuffer()), file.type)
    if (read.ok) uploaded = await keepPhoto(deps, accountId, read.made)
    else fields.fault('photo', t('en', read.fault.key, read.fault.params))
  }
  fields.retype('uploaded', uploaded ?? '')
  const drawn = fields.tick('drawn')
  if (file && drawn)
    fields.fault('drawn', 'Choose either the photo or the drawing. Uncheck this, or don’t upload a photo.')
  if (!file && !uploaded && !drawn && before === null) fields.fault('photo', 'Choose a photo.')
  return fields.reading({ photo: drawn ? null : (uploaded ?? before), seen: fields.text('seen') })
}

async function keptBefore(deps: Deps, name: string): Promise<string | null> {
  return (await findPhoto(deps.db, name)) ? name : null
}
