export const en = {
  'requests.beds-unreadable':
    'Something about the beds cannot be read. Please go back to them and look again.',
}

export const es: typeof en = {
  'requests.beds-unreadable': 'Algo de los macizos no se puede leer. Vuelva a ellos y revíselos, por favor.',
}
