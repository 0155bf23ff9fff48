/** The range so far, in one line, and what is missing for all of it. */
export const en = {
  'strip.label': 'Your range so far',
  'strip.size': 'Bed {n}: fill in “{size}”',
  'strip.check-size': 'Bed {n}: check “{size}”',
  'strip.finish': 'Bed {n}: pick a material',
  'strip.check': 'Bed {n}: check your answers',
}

export const es: Record<keyof typeof en, string> = {
  'strip.label': 'Su rango hasta ahora',
  'strip.size': 'Jardinera {n}: falta «{size}»',
  'strip.check-size': 'Jardinera {n}: revise «{size}»',
  'strip.finish': 'Jardinera {n}: elija un material',
  'strip.check': 'Jardinera {n}: revise sus respuestas',
}
