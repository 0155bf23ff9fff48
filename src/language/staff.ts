export const en = {
  'staff.nav': 'Pages',
  'staff.days': 'Days',
  'staff.sign-out': 'Sign out',
}

export const es: Record<keyof typeof en, string> = {
  'staff.nav': 'Páginas',
  'staff.days': 'Agenda',
  'staff.sign-out': 'Salir',
}
