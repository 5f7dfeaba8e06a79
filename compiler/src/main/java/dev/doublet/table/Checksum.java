package dev.doublet.table;

import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32C;

/** CRC-32C (Castagnoli), as RFC 3720 appendix B.4 has it. */
final class Checksum {
  private Checksum() {}

  /** The checksum of the first bytes of some. */
  static int of(byte[] bytes, int length) {
    CRC32C crc = new CRC32C();
    crc.update(bytes, 0, length);
    return (int) crc.getValue();
  }

  /** The checksum of a text's UTF-8 bytes. */
  static int of(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    return of(bytes, bytes.length);
  }
}
