/** How something was found or looked for, and what a test said. */
export interface Test {
  readonly test?: string;
  readonly outcome?: 'found' | 'none-found';
}
