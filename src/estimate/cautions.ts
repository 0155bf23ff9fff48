/** A warning to show: its text is 'caution.<code>' in the message catalogue, filled with params. */
export interface CautionGiven {
  code: string
  params: Record<string, string>
  source: string
}
