export const en = {
  'error.heading': 'That did not work',
  'error.not-found':
    'There is nothing at this address. A link may have been cut short, or is no longer in use.',
  'error.400': 'The request could not be read. Please go back and try again.',
  'error.403':
    'That form did not come from our own pages, so nothing was done. Please open the page again and send it from there.',
  'error.404': 'There is nothing at this address.',
  'error.405': 'That cannot be done at this address.',
  'error.408': 'The request took too long to arrive. Please try again.',
  'error.413': 'That was more than can be taken in at once.',
  'error.414': 'That address is too long.',
  'error.415': 'That kind of content cannot be taken in here.',
  'error.429': 'Too many requests came from your connection. Please wait a minute and try again.',
  'error.busy': 'There is a great deal to work out just now. Please try again in {wait}.',
  'error.500':
    'Something went wrong on our side. What you had sent may not have been kept: please try again in a moment.',
  'error.503':
    'We can’t get at our records right now. What you had sent may not have been kept: please try again in a minute.',
  'error.not-open': 'Online ballparks are not open yet. Please come back soon.',
  'error.request-id': 'If you tell us about it, please give this number: {id}',
  'error.owner-only': 'Only the owner may do that.',
  'error.start-page': 'To the first page',
  'error.stage':
    'Request {number} has moved on in the meantime, so this could not be done. Look at it again.',
  'error.again': 'That was done already.',
}

export const es: Record<keyof typeof en, string> = {
  'error.heading': 'Eso no funcionó',
  'error.not-found': 'No hay nada en esta dirección. Puede que el enlace esté incompleto o ya no se use.',
  'error.400': 'No se pudo leer la solicitud. Por favor, vuelva atrás e inténtelo de nuevo.',
  'error.403':
    'Ese formulario no vino de nuestras propias páginas, así que no se hizo nada. Abra la página otra vez y envíelo desde allí.',
  'error.404': 'No hay nada en esta dirección.',
  'error.405': 'Eso no se puede hacer en esta dirección.',
  'error.408': 'La solicitud tardó demasiado en llegar. Por favor, inténtelo de nuevo.',
  'error.413': 'Eso es más de lo que se puede recibir de una vez.',
  'error.414': 'Esa dirección es demasiado larga.',
  'error.415': 'Aquí no se puede recibir ese tipo de contenido.',
  'error.429': 'Llegaron demasiadas solicitudes desde su conexión. Espere un minuto e inténtelo de nuevo.',
  'error.busy': 'Hay muchísimo que calcular en este momento. Inténtelo de nuevo dentro de {wait}.',
  'error.500':
    'Algo falló de nuestro lado. Puede que no se haya guardado lo que envió: inténtelo de nuevo en un momento.',
  'error.503':
    'En este momento no podemos consultar nuestros datos. Puede que no se haya guardado lo que envió: inténtelo de nuevo en un minuto.',
  'error.not-open': 'Los presupuestos aproximados en línea aún no están abiertos. Vuelva pronto, por favor.',
  'error.request-id': 'Si nos avisa, dé por favor este número: {id}',
  'error.owner-only': 'Solo el dueño puede hacer eso.',
  'error.start-page': 'A la primera página',
  'error.stage': 'La solicitud {number} ya cambió, así que esto no se pudo hacer. Mírela otra vez.',
  'error.again': 'Eso ya estaba hecho.',
}
