export const en = {
  'quote.line-finish': '{finish}, delivered and spread',
  'quote.line-finish-material': '{finish}: material',
  'quote.line-laying': '{finish}: labor',
  'quote.line-size': 'Larger-job rate',
  'quote.line-set-up': 'Setup',
  'quote.line-discount': 'Discount: {reason}',
  'quote.line-surcharge': 'Surcharge: {reason}',
  'quote.line-travel': 'Travel',
  'quote.line-rounded': 'Rounded to an even price',
  'quote.line-minimum': 'Added to reach the minimum charge',
  'quote.line-tax': '{tax}, {rate}',
  'quote.line-tax-off': '{tax} taken off, {rate}',
  'quote.tax-included': 'The total includes {tax} at {rate}: {amount}.',
  'quote.tax-exempt': 'No {tax}: exempt under certificate {certificate}.',
  'quote.tax-new-work': 'Taxed as new work, with your certificate: {certificate}.',
  'quote.at-rate': '{quantity} at {rate}',
  'quote.about-at-rate': 'about {quantity} at {rate}',
  'quote.subject': 'Your price from {business}',
  'quote.hand-over':
    'Hello {name}, the price for your beds is {total}. It’s good through {until}. Read it, accept it, and choose a day here: {link}\n{business}',
  'quote.hand-over-unnamed':
    'Hello, the price for your beds is {total}. It’s good through {until}. Read it, accept it, and choose a day here: {link}\n{business}',
  'quote.overtaken':
    'The quote for {number} changed after you opened it, so yours wasn’t saved. Please look at it again.',
  'quote.accepted-meanwhile':
    'The homeowner accepted the price while this page was open, so no quote was made. If you make it now all the same, it changes what they agreed to, and they have to accept it too.',
  'quote.taken': 'The quote for {number} can’t be changed anymore: the work has begun.',
  'quote.basis':
    'The rates or the beds of {number} changed while the page was open, so no quote was made. Please look at it again.',
  'quote.unreadable':
    'The beds of {number} can’t be priced at today’s rates. Please measure or enter them again.',
  'quote.none': 'There’s no quote for {number} yet, so there’s no link to send.',
  'quote.day-asked':
    'A day is asked for on request {number}. Confirm it or decline it first, then change the price.',
  'quote.visit-set':
    'A visit is set for request {number}. Measure first, or cancel the visit to price it without one.',
  'quote.look': 'Go to request {number}',
  'quote.visit-first': 'No visit is set for request {number}, so there’s nothing to measure yet.',
}

export const es: Record<keyof typeof en, string> = {
  'quote.line-finish': '{finish}, con entrega y colocación',
  'quote.line-finish-material': '{finish}: material',
  'quote.line-laying': '{finish}: mano de obra',
  'quote.line-size': 'Tarifa de trabajo más grande',
  'quote.line-set-up': 'Preparación',
  'quote.line-discount': 'Descuento: {reason}',
  'quote.line-surcharge': 'Recargo: {reason}',
  'quote.line-travel': 'Traslado',
  'quote.line-rounded': 'Precio redondeado',
  'quote.line-minimum': 'Ajuste al cargo mínimo',
  'quote.line-tax': '{tax}, {rate}',
  'quote.line-tax-off': '{tax} descontado, {rate}',
  'quote.tax-included': 'El total incluye {tax} al {rate}: {amount}.',
  'quote.tax-exempt': 'Sin {tax}: exento según el certificado {certificate}.',
  'quote.tax-new-work': 'El impuesto es el de un trabajo nuevo, con su certificado: {certificate}.',
  'quote.at-rate': '{quantity} a {rate}',
  'quote.about-at-rate': 'cerca de {quantity} a {rate}',
  'quote.subject': 'Su precio de {business}',
  'quote.hand-over':
    'Hola, {name}: el precio para sus jardineras es {total}. Vale hasta el {until}. Léalo, acéptelo y elija un día aquí: {link}\n{business}',
  'quote.hand-over-unnamed':
    'Hola: el precio para sus jardineras es {total}. Vale hasta el {until}. Léalo, acéptelo y elija un día aquí: {link}\n{business}',
  'quote.overtaken':
    'El presupuesto de {number} cambió después de que usted lo abrió, así que el suyo no se guardó. Mírelo otra vez.',
  'quote.accepted-meanwhile':
    'El cliente aceptó el precio mientras esta página estaba abierta, así que no se hizo el presupuesto. Si lo hace ahora de todos modos, cambia lo que acordaron, y el cliente también tiene que aceptarlo.',
  'quote.taken': 'El presupuesto de {number} ya no se puede cambiar: el trabajo empezó.',
  'quote.basis':
    'Las tarifas o las jardineras de {number} cambiaron con la página abierta, así que no se hizo el presupuesto. Mírelo otra vez.',
  'quote.unreadable':
    'Las jardineras de {number} no se pueden calcular con las tarifas de hoy. Mídalas o anótelas otra vez.',
  'quote.none': 'Todavía no hay presupuesto para {number}, así que no hay enlace que enviar.',
  'quote.day-asked':
    'En la solicitud {number} hay un día pedido. Primero confírmelo o rechácelo, y después cambie el precio.',
  'quote.visit-set':
    'La solicitud {number} tiene una visita. Mida primero, o cancele la visita para calcular el precio sin ella.',
  'quote.look': 'Ir a la solicitud {number}',
  'quote.visit-first': 'La solicitud {number} no tiene visita, así que aún no hay nada que medir.',
}
