const NAME = /^[0-9a-f]{64}$/

/** Whether a text can be the name of a stored photo: its SHA-256 in hexadecimal. */
export function isPhotoName(text: string): boolean {
  return NAME.test(text)
}
