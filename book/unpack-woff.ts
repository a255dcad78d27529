/**
 * A WOFF file as the plain font file inside it. The PDF library reads WOFF too, but unpacks a table again for every letter:
 * seconds instead of milliseconds.
 */
import { inflateSync } from 'node:zlib';

/**
 * WOFF 1.0 (W3C recommendation): header of 44 bytes, 20 bytes a table, each table packed by zlib where that makes it shorter.
 * @throws Error on anything else
 */
export function unpackWoff(file: Uint8Array): Buffer {
  const from = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  if (from.length < 44 || from.toString('latin1', 0, 4) !== 'wOFF') throw new Error('the font is no WOFF file');
  const count = from.readUInt16BE(12);
  const tables = Array.from({ length: count }, (_, index) => {
    const at = 44 + index * 20;
    const [offset, packed, length] = [from.readUInt32BE(at + 4), from.readUInt32BE(at + 8), from.readUInt32BE(at + 12)];
    const piece = from.subarray(offset, offset + packed);
    const data = packed < length ? inflateSync(piece) : piece;
    if (data.length !== length) throw new Error(`table ${from.toString('latin1', at, at + 4)} of the font is broken`);
    return { tag: from.subarray(at, at + 4), checksum: from.readUInt32BE(at + 16), data };
  });
  const head = Buffer.alloc(12 + count * 16);
  const power = Math.floor(Math.log2(count));
  head.writeUInt32BE(from.readUInt32BE(4), 0);
  head.writeUInt16BE(count, 4);
  head.writeUInt16BE(2 ** power * 16, 6);
  head.writeUInt16BE(power, 8);
  head.writeUInt16BE(count * 16 - 2 ** power * 16, 10);
  const pieces: Buffer[] = [head];
  let offset = head.length;
  tables.forEach(({ tag, checksum, data }, index) => {
    const at = 12 + index * 16;
    tag.copy(head, at);
    head.writeUInt32BE(checksum, at + 4);
    head.writeUInt32BE(offset, at + 8);
    head.writeUInt32BE(data.length, at + 12);
    const padding = (4 - (data.length % 4)) % 4;
    pieces.push(data, Buffer.alloc(padding));
    offset += data.length + padding;
  });
  return Buffer.concat(pieces);
}
