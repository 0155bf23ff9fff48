/** Of a morning or an afternoon. */
export const en = {
  'halves.am': '{day}, in the morning',
  'halves.pm': '{day}, in the afternoon',
}

export const es: Record<keyof typeof en, string> = {
  'halves.am': '{day} por la mañana',
  'halves.pm': '{day} por la tarde',
}
