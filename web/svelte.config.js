/** Runes everywhere: no component of the older kind. */
export default { compilerOptions: { runes: true } };
