/** Of the days that homeowners are offered. */
export const en = {
  'offered.near': 'We’re in your area that day',
  'offered.weather': 'Every day is weather permitting. If we have to move yours, we’ll tell you the new day.',
}

export const es: Record<keyof typeof en, string> = {
  'offered.near': 'Ese día estaremos en su zona',
  'offered.weather': 'Los días dependen del clima. Si tenemos que cambiar el suyo, le diremos el día nuevo.',
}
