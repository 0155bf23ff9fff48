import type { PhotoRow } from './queries.ts'

/** A photo as it is shown, with the path of each of its sizes. */
export type PhotoView = PhotoRow & { path: string; smallPath: string }

/** Photos with the paths that they have below that of a page. */
export function viewPhotos(photos: PhotoRow[], path: string): PhotoView[] {
  return photos.map(photo => {
    const own = `${path}/photos/${photo.id}`
    return { ...photo, path: own, smallPath: `${own}/small` }
  })
}
