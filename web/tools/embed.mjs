// dist/ -> page_files.cpp: every file of the page, packed as well where that is smaller, with a tag that changes with its bytes.
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { gzipSync } from 'node:zlib';

const [, , dist, out] = process.argv;
const types = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  css: 'text/css; charset=utf-8',
  svg: 'image/svg+xml',
  json: 'application/json',
};

const names = readdirSync(dist, { recursive: true, withFileTypes: true })
  .filter((each) => each.isFile())
  .map((each) => relative(dist, join(each.parentPath, each.name)).split(sep).join('/'))
  .sort();

const list = (bytes) => `{${[...bytes].join(',')}}`;
const arrays = [];
const entries = names.map((name, index) => {
  const bytes = readFileSync(join(dist, name));
  const type = types[name.split('.').pop()];
  if (type === undefined) throw new Error(`${name}: of what type is this?`);
  const packed = gzipSync(bytes, { level: 9 });
  const smaller = packed.length < bytes.length;
  const tag = createHash('sha256').update(bytes).digest('hex').slice(0, 32);
  arrays.push(`const unsigned char kBytes${index}[] = ${list(bytes)};`);
  if (smaller) arrays.push(`const unsigned char kPacked${index}[] = ${list(packed)};`);
  return `      {"/${name}", "${type}", view(kBytes${index}), ${smaller ? `view(kPacked${index})` : '{}'}, "${tag}"},`;
});

writeFileSync(
  out,
  `// Written by web/tools/embed.mjs.
#include "server/page_files.h"

namespace fettle {
namespace {

${arrays.join('\n')}

template <std::size_t Size>
std::string_view view(const unsigned char (&bytes)[Size]) {
  return {reinterpret_cast<const char*>(bytes), Size};
}

}  // namespace

const std::vector<PageFile>& page_files() {
  static const std::vector<PageFile> kFiles = {
${entries.join('\n')}
  };
  return kFiles;
}

}  // namespace fettle
`,
);
