const LONGEST = 254

/** Whether a text can be a mail address; only sending to it shows whether it is one. */
export function isEmailAddress(text: string): boolean {
  return (
    text.length <= LONGEST && /^[^\s@,;:<>()[\]\\"]+@[^\s@,;:<>()[\]\\"]+\.[^\s@,;:<>()[\]\\".]+$/.test(text)
  )
}
