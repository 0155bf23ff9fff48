/** Of the discount for a day with work near. */
export const en = {
  'near.line': 'Discount: we’re in your area that day',
  'near.offer': 'We’re in your area that day: {discount} off, {less} less. {total} in all.',
  'near.offer-least': 'We’re in your area that day: {less} less. {total} in all.',
  'near.lost': 'Without the discount: {total} in all.',
  'near.kept': 'We’re in your area that day: your discount stays.',
  'near.total': 'Total, with the discount for that day',
  'near.gone': 'The discount for that day has changed since you opened this page. Please look at it again.',
}

export const es: Record<keyof typeof en, string> = {
  'near.line': 'Descuento: ese día estamos en su zona',
  'near.offer': 'Ese día estaremos en su zona: {discount} de descuento, {less} menos. {total} en total.',
  'near.offer-least': 'Ese día estaremos en su zona: {less} menos. {total} en total.',
  'near.lost': 'Sin el descuento: {total} en total.',
  'near.kept': 'Ese día estaremos en su zona: su descuento se mantiene.',
  'near.total': 'Total, con el descuento de ese día',
  'near.gone':
    'El descuento de ese día cambió desde que usted abrió esta página. Mírelo otra vez, por favor.',
}
