/**
 * CRC-32 (ISO 3309 / ITU-T V.42, polynomial 0xEDB88320 reflected) over the UTF-16 code units of a text, low byte
 * first. It tells a whole record from a torn one; it is no protection against somebody who means harm.
 *
 * @returns an unsigned 32-bit integer
 */
export function checksum(text: string): number {
  let crc = 0xffffffff;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    crc = step(step(crc, unit & 0xff), unit >>> 8);
  }
  return ~crc >>> 0;
}

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

const step = (crc: number, byte: number): number => (crc >>> 8) ^ TABLE[(crc ^ byte) & 0xff]!;
