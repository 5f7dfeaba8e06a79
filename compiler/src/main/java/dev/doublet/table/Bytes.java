package dev.doublet.table;

import java.io.ByteArrayOutputStream;

/** Bytes that grow, numbers least significant byte first. */
final class Bytes extends ByteArrayOutputStream {
  Bytes add(int... values) {
    for (int value : values) {
      write(value);
    }
    return this;
  }

  Bytes u16(int value) {
    return add(value, value >>> 8);
  }

  Bytes u32(int value) {
    return u16(value).u16(value >>> 16);
  }

  Bytes u64(long value) {
    return u32((int) value).u32((int) (value >>> 32));
  }
}
