/** What a unit is called: as the form of the unit on this page lists it, or its slug where it is not listed. */
export function nameUnit(slug: string): string {
  const options = document.querySelectorAll<HTMLOptionElement>('select[name="unit.slug"] option');
  return [...options].find(({ value }) => value === slug)?.text ?? slug;
}
