/** Kinds of parts by the sections of an engine, in the order of taking it apart. */
export interface Section {
  readonly id: string;
  readonly name: string;
}
interface Kind {
  readonly name: string;
  readonly section: string | null;
}

/** Found by any of the words, in the kind's name or its section's. */
function isSought(kind: Kind, section: string, sought: string): boolean {
  const text = `${kind.name} ${section}`.toLocaleLowerCase();
  return sought
    .toLocaleLowerCase()
    .trim()
    .split(/\s+/)
    .every((word) => text.includes(word));
}

/** Sections that have something of what is sought; `rest`: the name of those that stand in none. */
export function inSections<Item extends Kind>(
  items: readonly Item[],
  sections: readonly Section[],
  sought: string,
  rest: string,
): { name: string; items: Item[] }[] {
  const names: readonly { id: string | null; name: string }[] = [...sections, { id: null, name: rest }];
  return names
    .map(({ id, name }) => ({
      name,
      items: items.filter((each) => each.section === id && isSought(each, name, sought)),
    }))
    .filter((section) => section.items.length > 0);
}
