export const en = {
  'error.heading': 'That didn’t work',
  'error.not-found': 'There’s nothing at this address. The link may be incomplete, or it may no longer work.',
  'error.400': 'We couldn’t read that. Please go back and try again.',
  'error.403':
    'That form didn’t come from one of our pages, so nothing was saved. Please open the page again and send it from there.',
  'error.404': 'There’s nothing at this address.',
  'error.405': 'You can’t do that here.',
  'error.408': 'That took too long to arrive. Please try again.',
  'error.413': 'That was too much at once.',
  'error.414': 'That address is too long.',
  'error.415': 'We can’t use that kind of content here.',
  'error.429': 'Too many requests came from your connection. Please wait a minute and try again.',
  'error.busy': 'We’re working on a lot of estimates right now. Please try again in {wait}.',
  'error.500':
    'Something went wrong on our end. What you sent may not have been saved: please try again in a moment.',
  'error.503':
    'We can’t get to our records right now. What you sent may not have been saved: please try again in a minute.',
  'error.full': 'We’re out of room to save anything right now. Please try again in a little while.',
  'error.kept': 'Nothing you typed is lost. Wait a moment, then send it again.',
  'error.kept-but-files':
    'Nothing you typed is lost, but photos have to be chosen again. Wait a moment, then send it again.',
  'error.send-again': 'Send it again',
  'error.not-open': 'You can’t get price ranges here yet. Please come back soon.',
  'error.request-id': 'If you contact us about this, please give us this number: {id}',
  'error.owner-only': 'Only the owner can do that.',
  'error.office-only': 'Only the owner and the office can do that.',
  'error.start-page': 'Go to the home page',
  'error.stage':
    'Request {number} changed after you opened the page, so nothing was saved. Please look at it again.',
  'error.again': 'That was already done.',
  'error.erased':
    'Whoever sent this request was erased. Bills, if there were any, stay for as long as the tax office may ask for them.',
}

export const es: Record<keyof typeof en, string> = {
  'error.heading': 'Eso no funcionó',
  'error.not-found': 'No hay nada en esta dirección. Puede que el enlace esté incompleto o que ya no se use.',
  'error.400': 'No pudimos leer eso. Vuelva atrás e inténtelo de nuevo, por favor.',
  'error.403':
    'Ese formulario no vino de nuestras páginas, así que no se guardó nada. Abra la página otra vez y envíelo desde allí.',
  'error.404': 'No hay nada en esta dirección.',
  'error.405': 'Eso no se puede hacer aquí.',
  'error.408': 'Tardó demasiado en llegar. Inténtelo de nuevo, por favor.',
  'error.413': 'Eso es demasiado de una vez.',
  'error.414': 'Esa dirección es demasiado larga.',
  'error.415': 'Aquí no podemos recibir ese tipo de contenido.',
  'error.429': 'Llegaron demasiadas solicitudes desde su conexión. Espere un minuto e inténtelo de nuevo.',
  'error.busy': 'En este momento estamos calculando muchos precios. Inténtelo de nuevo en {wait}.',
  'error.500':
    'Algo falló de nuestro lado. Puede que no se haya guardado lo que envió: inténtelo de nuevo en un momento.',
  'error.503':
    'En este momento no podemos consultar nuestros datos. Puede que no se haya guardado lo que envió: inténtelo de nuevo en un minuto.',
  'error.full':
    'En este momento no nos queda espacio para guardar nada. Inténtelo de nuevo dentro de un rato.',
  'error.kept': 'Lo que escribió no se perdió. Espere un momento y envíelo de nuevo.',
  'error.kept-but-files':
    'Lo que escribió no se perdió, pero hay que volver a elegir las fotos. Espere un momento y envíelo de nuevo.',
  'error.send-again': 'Enviar de nuevo',
  'error.not-open': 'Aquí todavía no se puede ver un rango de precio. Vuelva pronto, por favor.',
  'error.request-id': 'Si se comunica con nosotros, denos este número, por favor: {id}',
  'error.owner-only': 'Solo el dueño puede hacer eso.',
  'error.office-only': 'Solo el dueño y la oficina pueden hacer eso.',
  'error.start-page': 'Ir a la página de inicio',
  'error.stage':
    'La solicitud {number} cambió después de que usted abrió la página, así que no se guardó nada. Mírela otra vez.',
  'error.again': 'Eso ya estaba hecho.',
  'error.erased':
    'Los datos de quien envió esta solicitud se borraron. Las facturas, si las hubo, se guardan el tiempo que la oficina de impuestos pueda pedirlas.',
}
