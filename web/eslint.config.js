import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

/** lib <- parts, lib <- api <- state, all <- pages. A room may import only from those listed. */
const arrows = {
  generated: [],
  lib: ['generated'],
  parts: ['lib', 'generated'],
  api: ['lib', 'generated'],
  state: ['api', 'lib', 'generated'],
  pages: ['parts', 'state', 'api', 'lib', 'generated'],
};
const rooms = Object.keys(arrows);

const arrowRules = Object.entries(arrows).map(([room, allowed]) => ({
  files: [`src/${room}/**/*.{ts,svelte}`],
  rules: {
    'no-restricted-imports': [
      'error',
      {
        patterns: rooms
          .filter((other) => other !== room && !allowed.includes(other))
          .map((other) => ({ regex: `(^|/)${other}/`, message: `${room} may not import from ${other}.` })),
      },
    ],
  },
}));

/** The page computes no size and no verdict: a reading is text from the key to the server and back. */
const noFigures = {
  files: ['src/**/*.{ts,svelte}', 'src/**/*.svelte.ts'],
  rules: {
    'no-restricted-globals': ['error', { name: 'parseFloat', message: 'Measured values stay text.' }],
    'no-restricted-properties': [
      'error',
      { object: 'Number', property: 'parseFloat', message: 'Measured values stay text.' },
    ],
    'no-restricted-syntax': [
      'error',
      { selector: "CallExpression[callee.name='Number']", message: 'Measured values stay text.' },
      { selector: "UnaryExpression[operator='+']", message: 'Measured values stay text.' },
      {
        selector:
          'BinaryExpression[operator=/^[-*\\u002f%]$/] > MemberExpression[property.name=/^(text|said|understood|value|set|wanted|shows)$/]',
        message: 'No arithmetic on measured values.',
      },
    ],
  },
};

export default ts.config(
  { ignores: ['dist', 'node_modules', 'src/generated'] },
  js.configs.recommended,
  ...ts.configs.strictTypeChecked,
  ...svelte.configs.recommended,
  {
    languageOptions: {
      parserOptions: {
        projectService: { allowDefaultProject: ['*.js'] },
        extraFileExtensions: ['.svelte'],
        tsconfigRootDir: import.meta.dirname,
      },
    },
    rules: {
      'no-undef': 'off', // the compiler knows better
      'max-lines': ['error', { max: 150, skipBlankLines: true, skipComments: true }],
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { varsIgnorePattern: '^_' }],
      'svelte/no-at-html-tags': 'error',
      'svelte/no-navigation-without-resolve': 'off', // routes are ours
      'svelte/prefer-svelte-reactivity': 'off', // sets are replaced as a whole, in $state.raw
    },
  },
  { files: ['**/*.svelte', '**/*.svelte.ts'], languageOptions: { parserOptions: { parser: ts.parser, svelteConfig } } },
  { files: ['e2e/**', 'test/**', 'tools/**', '*.js'], rules: { 'max-lines': 'off' } },
  {
    files: ['tools/**', '*.js'],
    extends: [ts.configs.disableTypeChecked],
    languageOptions: { globals: {} },
  },
  noFigures,
  ...arrowRules,
);
