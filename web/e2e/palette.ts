import { deflateSync, inflateSync } from 'node:zlib';

/** A screenshot as a PNG of at most 256 colours: pages have few, and only edges of letters have more. */
export function palettePng(png: Buffer): Buffer {
  const { width, height, pixels } = decode(png);
  // Coarser until it fits; 5 of 8 bits are not told apart by an eye at the edge of a letter.
  for (let lost = 0; lost < 6; lost += 1) {
    const made = withPalette(pixels, width * height, lost);
    if (made === null) continue;
    const rows = Buffer.alloc((width + 1) * height);
    for (let y = 0; y < height; y += 1) made.indices.copy(rows, y * (width + 1) + 1, y * width, (y + 1) * width);
    const head = Buffer.alloc(13);
    head.writeUInt32BE(width, 0);
    head.writeUInt32BE(height, 4);
    head.set([8, 3, 0, 0, 0], 8);
    const signature = Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]);
    const data = deflateSync(rows, { level: 9 });
    return Buffer.concat([
      signature,
      chunk('IHDR', head),
      chunk('PLTE', made.palette),
      chunk('IDAT', data),
      chunk('IEND', Buffer.alloc(0)),
    ]);
  }
  throw new Error('too many colours');
}

/** Each colour is shown as the first one seen among those that become equal, so that plain grounds stay what they are. */
function withPalette(pixels: Buffer, count: number, lost: number): { palette: Buffer; indices: Buffer } | null {
  const mask = (0xff << lost) & 0xff;
  const known = new Map<number, number>();
  const colours: number[] = [];
  const indices = Buffer.alloc(count);
  for (let at = 0; at < count; at += 1) {
    const [r = 0, g = 0, b = 0] = pixels.subarray(at * 3, at * 3 + 3);
    const key = ((r & mask) << 16) | ((g & mask) << 8) | (b & mask);
    let index = known.get(key);
    if (index === undefined) {
      index = known.size;
      if (index > 255) return null;
      known.set(key, index);
      colours.push(r, g, b);
    }
    indices[at] = index;
  }
  return { palette: Buffer.from(colours), indices };
}

const crcs = Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k += 1) c = (c & 1) === 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});
function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  let crc = 0xffffffff;
  for (const byte of body) crc = (crcs[(crc ^ byte) & 0xff] ?? 0) ^ (crc >>> 8);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length, 0);
  body.copy(out, 4);
  out.writeUInt32BE((crc ^ 0xffffffff) >>> 0, body.length + 4);
  return out;
}

/** Of 8 bits a colour, without alpha or with it, as browsers write them. */
function decode(png: Buffer): { width: number; height: number; pixels: Buffer } {
  const width = png.readUInt32BE(16);
  const height = png.readUInt32BE(20);
  const each = png[25] === 6 ? 4 : 3;
  const data: Buffer[] = [];
  for (let at = 8; at < png.length;) {
    const length = png.readUInt32BE(at);
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT') data.push(png.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  const raw = inflateSync(Buffer.concat(data));
  const wide = width * each;
  const lines = Buffer.alloc(wide * height);
  for (let y = 0; y < height; y += 1) {
    const filter = raw[y * (wide + 1)] ?? 0;
    for (let x = 0; x < wide; x += 1) {
      const a = x >= each ? (lines[y * wide + x - each] ?? 0) : 0;
      const b = y > 0 ? (lines[(y - 1) * wide + x] ?? 0) : 0;
      const c = x >= each && y > 0 ? (lines[(y - 1) * wide + x - each] ?? 0) : 0;
      const near = [a, b, c].map((from) => Math.abs(a + b - c - from));
      const [pa = 0, pb = 0, pc = 0] = near;
      const paeth = pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
      const guess = [0, a, b, (a + b) >> 1, paeth][filter] ?? 0;
      lines[y * wide + x] = ((raw[y * (wide + 1) + 1 + x] ?? 0) + guess) & 0xff;
    }
  }
  const pixels = Buffer.alloc(width * height * 3);
  for (let at = 0; at < width * height; at += 1) lines.copy(pixels, at * 3, at * each, at * each + 3);
  return { width, height, pixels };
}
