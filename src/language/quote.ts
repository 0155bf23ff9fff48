export const en = {
  'quote.line-finish': '{finish}, delivered and laid',
  'quote.line-finish-material': '{finish}: material',
  'quote.line-laying': '{finish}: labor',
  'quote.line-size': 'At the rates of a larger job',
  'quote.line-set-up': 'Setting up',
  'quote.line-discount': 'Discount: {reason}',
  'quote.line-surcharge': 'Surcharge: {reason}',
  'quote.line-travel': 'Travel',
  'quote.line-minimum': 'Up to the minimum charge',
  'quote.line-tax': '{tax}, {rate}',
  'quote.line-tax-off': '{tax} taken off, {rate}',
  'quote.tax-included': 'The total includes {tax} at {rate}: {amount}.',
  'quote.tax-exempt': 'No {tax}: exempt by certificate {certificate}.',
  'quote.at-rate': '{quantity} at {rate}',
  'quote.about-at-rate': 'about {quantity} at {rate}',
  'quote.subject': 'Your price from {business}',
  'quote.hand-over':
    'Hello {name}, your beds come to {total}. The price holds until {until}. Read it, accept it and choose a day here: {link}\n{business}',
  'quote.hand-over-unnamed':
    'Hello, your beds come to {total}. The price holds until {until}. Read it, accept it and choose a day here: {link}\n{business}',
  'quote.overtaken':
    'Another revision of the quote for {number} was made in the meantime, so yours was not. Look at it again.',
  'quote.taken':
    'The quote for {number} has been accepted and a day is booked, so it can no longer be changed.',
  'quote.basis':
    'The rates or the beds of {number} changed while the page was open, so no quote was made. Look at it again.',
  'quote.unreadable':
    'The beds of {number} cannot be priced at the rates in force. Enter them again on the sheet.',
  'quote.none': 'There is no quote for {number} yet, so there is nothing to hand over.',
  'quote.visit-set':
    'A visit is set for request {number}. Measure first, or call the visit off to price it as told.',
  'quote.look': 'To request {number}',
  'quote.visit-first': 'Request {number} has no visit set, so there is nothing to measure yet.',
}

export const es: Record<keyof typeof en, string> = {
  'quote.line-finish': '{finish}, con entrega y colocación',
  'quote.line-finish-material': '{finish}: material',
  'quote.line-laying': '{finish}: mano de obra',
  'quote.line-size': 'Con las tarifas de un trabajo más grande',
  'quote.line-set-up': 'Preparación del trabajo',
  'quote.line-discount': 'Descuento: {reason}',
  'quote.line-surcharge': 'Recargo: {reason}',
  'quote.line-travel': 'Traslado',
  'quote.line-minimum': 'Hasta el cargo mínimo',
  'quote.line-tax': '{tax}, {rate}',
  'quote.line-tax-off': '{tax} descontado, {rate}',
  'quote.tax-included': 'El total incluye {tax} al {rate}: {amount}.',
  'quote.tax-exempt': 'Sin {tax}: exento según el certificado {certificate}.',
  'quote.at-rate': '{quantity} a {rate}',
  'quote.about-at-rate': 'aprox. {quantity} a {rate}',
  'quote.subject': 'Su precio de {business}',
  'quote.hand-over':
    'Hola, {name}: sus macizos salen en {total}. El precio vale hasta el {until}. Léalo, acéptelo y elija un día aquí: {link}\n{business}',
  'quote.hand-over-unnamed':
    'Hola: sus macizos salen en {total}. El precio vale hasta el {until}. Léalo, acéptelo y elija un día aquí: {link}\n{business}',
  'quote.overtaken':
    'Entretanto se hizo otra revisión del precio de {number}, así que la suya no. Mírela otra vez.',
  'quote.taken': 'El precio de {number} ya fue aceptado y hay un día reservado, así que no se puede cambiar.',
  'quote.basis':
    'Las tarifas o los macizos de {number} cambiaron con la página abierta, así que no se hizo el precio. Mírelo otra vez.',
  'quote.unreadable':
    'Los macizos de {number} no se pueden calcular con las tarifas vigentes. Anótelos otra vez.',
  'quote.none': 'Todavía no hay precio para {number}, así que no hay nada que entregar.',
  'quote.visit-set':
    'La solicitud {number} tiene una visita fijada. Mida primero, o cancele la visita para calcularla como se dijo.',
  'quote.look': 'A la solicitud {number}',
  'quote.visit-first': 'La solicitud {number} no tiene visita fijada, así que aún no hay nada que medir.',
}
