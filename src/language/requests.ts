export const en = {
  'requests.beds-unreadable': 'We couldn’t read part of your bed description. Please go back and check it.',
  'requests.beds-known': 'Request {number} has beds already. Change them on the visit.',
  'requests.no-beds': 'Request {number} has no beds yet. Add them, or set a visit to measure them.',
  'requests.narrower': 'Say true or false, or leave it out.',
  'requests.too-large':
    'These beds are larger than we can estimate here. Please check their sizes, or call us.',
}

export const es: Record<keyof typeof en, string> = {
  'requests.beds-unreadable':
    'No pudimos leer una parte de la descripción de las jardineras. Vuelva y revísela, por favor.',
  'requests.beds-known': 'La solicitud {number} ya tiene jardineras. Cámbielas en la visita.',
  'requests.no-beds':
    'La solicitud {number} todavía no tiene jardineras. Agréguelas o fije una visita para medirlas.',
  'requests.narrower': 'Diga true o false, o no lo ponga.',
  'requests.too-large':
    'Estas jardineras son más grandes de lo que podemos calcular aquí. Revise sus medidas o llámenos.',
}
