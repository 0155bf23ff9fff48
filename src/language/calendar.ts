export const en = {
  'calendar.visit': '{business}: measuring visit, request {number}',
  'calendar.work': '{business}: mulching, request {number}',
  'calendar.add': 'Add to your calendar',
  'calendar.title': 'Your calendar',
  'calendar.lead': 'Subscribe to the booked work in your own calendar app. It stays up to date by itself.',
  'calendar.lead-office':
    'Subscribe to visits and booked work in your own calendar app. It stays up to date by itself.',
  'calendar.address': 'Calendar address',
  'calendar.address-hint':
    'Paste it where your app says “subscribe” or “add from URL.” Anyone who has it can see customers’ names and addresses.',
  'calendar.copy': 'Copy the address',
  'calendar.copied': 'Copied',
  'calendar.marked': 'Marked: copy it now',
  'calendar.open': 'Open in your calendar app',
  'calendar.make': 'Make a calendar address',
  'calendar.replace': 'Replace it with a new address',
  'calendar.end': 'Turn it off',
  'calendar.made': 'Your calendar address is ready.',
  'calendar.ended': 'Your calendar address is turned off.',
  'calendar.back': 'Back to Days',
}

export const es: Record<keyof typeof en, string> = {
  'calendar.visit': '{business}: visita para medir, solicitud {number}',
  'calendar.work': '{business}: trabajo en las jardineras, solicitud {number}',
  'calendar.add': 'Agregar a su calendario',
  'calendar.title': 'Su calendario',
  'calendar.lead':
    'Suscríbase desde su aplicación de calendario a los trabajos reservados. Se actualiza por sí solo.',
  'calendar.lead-office':
    'Suscríbase desde su aplicación de calendario a las visitas y los trabajos reservados. Se actualiza por sí solo.',
  'calendar.address': 'Dirección del calendario',
  'calendar.address-hint':
    'Péguela donde su aplicación dice “suscribirse” o “agregar por URL”. Quien la tenga puede ver nombres y direcciones de los clientes.',
  'calendar.copy': 'Copiar la dirección',
  'calendar.copied': 'Copiada',
  'calendar.marked': 'Marcada: cópiela ahora',
  'calendar.open': 'Abrir en su calendario',
  'calendar.make': 'Crear una dirección de calendario',
  'calendar.replace': 'Cambiarla por una nueva',
  'calendar.end': 'Desactivarla',
  'calendar.made': 'Su dirección de calendario está lista.',
  'calendar.ended': 'Su dirección de calendario está desactivada.',
  'calendar.back': 'Volver a los días',
}
