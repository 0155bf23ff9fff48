export const en = {
  'staff.nav': 'Pages',
  'staff.diary': 'Diary',
  'staff.sign-out': 'Sign out',
}

export const es: typeof en = {
  'staff.nav': 'Páginas',
  'staff.diary': 'Agenda',
  'staff.sign-out': 'Salir',
}
