export const en = {
  'requests.beds-unreadable':
    'Something about the beds cannot be read. Please go back to them and look again.',
  'requests.narrower': 'Say true or false, or leave it out.',
  'requests.too-large':
    'These beds are larger than we can work out here. Please go back to their sizes, or ring us.',
}

export const es: Record<keyof typeof en, string> = {
  'requests.beds-unreadable': 'Algo de los macizos no se puede leer. Vuelva a ellos y revíselos, por favor.',
  'requests.narrower': 'Diga true o false, o no lo ponga.',
  'requests.too-large':
    'Estos macizos son más grandes de lo que podemos calcular aquí. Revise sus medidas o llámenos.',
}
