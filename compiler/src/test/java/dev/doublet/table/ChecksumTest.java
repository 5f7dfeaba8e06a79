package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ChecksumTest {

  /** RFC 3720, appendix B.4, prints AA 36 91 8A, the last byte of which is the highest. */
  @Test
  void thirtyTwoZeroBytesHaveThePublishedChecksum() {
    assertThat(Checksum.of(new byte[32], 32)).isEqualTo(0x8A9136AA);
  }

  /** The customary check value of CRC-32C. */
  @Test
  void theDigitsOneToNineHaveTheCustomaryChecksum() {
    assertThat(Checksum.of("123456789")).isEqualTo(0xE3069283);
  }
}
