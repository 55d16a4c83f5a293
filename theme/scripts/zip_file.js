// @ts-check
/** A zip of a few small files: stored, which photographs gain nothing from being packed further (APPNOTE.TXT 6.3.10). */

const zipFile = (() => {
  "use strict";
  const TABLE = Uint32Array.from({ length: 256 }, (_, number) => {
    let rest = number;
    for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? 0xedb88320 ^ (rest >>> 1) : rest >>> 1;
    return rest >>> 0;
  });
  const UTF8_NAMES = 0x0800;
  const VERSION = 20;

  /** @param {Uint8Array} bytes */
  function crc32(bytes) {
    let rest = 0xffffffff;
    for (const byte of bytes) rest = TABLE[(rest ^ byte) & 0xff] ^ (rest >>> 8);
    return (rest ^ 0xffffffff) >>> 0;
  }

  /** Numbers of two or four bytes, the small end first. @param {[number, 2 | 4][]} fields */
  function packed(fields) {
    const bytes = new Uint8Array(fields.reduce((sum, [, size]) => sum + size, 0));
    const view = new DataView(bytes.buffer);
    let at = 0;
    for (const [value, size] of fields) {
      if (size === 2) view.setUint16(at, value, true);
      else view.setUint32(at, value, true);
      at += size;
    }
    return bytes;
  }

  /** The day of the fire as zips write days; what is made twice of one entry is the same. @param {string} day year-month-day */
  function dosDay(day) {
    const [year, month, date] = day.split("-").map(Number);
    return year >= 1980 && year <= 2107 ? ((year - 1980) << 9) | (month << 5) | date : 0x21;
  }

  /**
   * @param {{name: string, bytes: Uint8Array}[]} files
   * @param {string} day year-month-day
   * @returns {Uint8Array}
   */
  function write(files, day) {
    /** @type {Uint8Array[]} */
    const pieces = [];
    /** @type {Uint8Array[]} */
    const listing = [];
    let offset = 0;
    for (const file of files) {
      const name = new TextEncoder().encode(file.name);
      /** @type {[number, 2 | 4][]} */
      const shared = [[UTF8_NAMES, 2], [0, 2], [0, 2], [dosDay(day), 2], [crc32(file.bytes), 4], [file.bytes.length, 4], [file.bytes.length, 4], [name.length, 2], [0, 2]];
      pieces.push(packed([[0x04034b50, 4], [VERSION, 2], ...shared]), name, file.bytes);
      listing.push(packed([[0x02014b50, 4], [VERSION, 2], [VERSION, 2], ...shared, [0, 2], [0, 2], [0, 2], [0, 4], [offset, 4]]), name);
      offset += 30 + name.length + file.bytes.length;
    }
    const size = listing.reduce((sum, piece) => sum + piece.length, 0);
    const end = packed([[0x06054b50, 4], [0, 2], [0, 2], [files.length, 2], [files.length, 2], [size, 4], [offset, 4], [0, 2]]);
    return joined([...pieces, ...listing, end]);
  }

  /** @param {Uint8Array[]} pieces */
  function joined(pieces) {
    const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
    let at = 0;
    for (const piece of pieces) {
      whole.set(piece, at);
      at += piece.length;
    }
    return whole;
  }

  return { write };
})();
