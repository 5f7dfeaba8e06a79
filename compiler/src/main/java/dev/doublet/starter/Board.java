package dev.doublet.starter;

/**
 * A sort of board that may drive the signals. What is left for tables beside a program is a choice
 * of ours: three quarters of the memory or a little more, as the layouts of the examples have it.
 */
public enum Board {
  /** 32 KB of flash, 2 KB of memory. */
  AVR("avr-16mhz", "8 bits, 32 KB of flash, 2 KB of memory", 28672, 1536),
  /** 64 KB of flash, 8 KB of memory. */
  CORTEX_M0("cortex-m0", "32 bits, 64 KB of flash, 8 KB of memory", 49152, 6144),
  /** 64 KB of flash, 20 KB of memory. */
  CORTEX_M3("cortex-m3", "32 bits, 64 KB of flash, 20 KB of memory", 49152, 15360),
  /** 64 KB of flash, 20 KB of memory. */
  RISC_V("rv32", "32 bits, 64 KB of flash, 20 KB of memory", 49152, 15360);

  private final String word;
  private final String size;
  private final int flash;
  private final int ram;

  Board(String word, String size, int flash, int ram) {
    this.word = word;
    this.size = size;
    this.flash = flash;
    this.ram = ram;
  }

  /** What a user calls it. */
  public String word() {
    return word;
  }

  /** Its size in words. */
  public String size() {
    return size;
  }

  /** Bytes of program memory left for the table. */
  int flash() {
    return flash;
  }

  /** Bytes of memory left for the reader and its LEDs. */
  int ram() {
    return ram;
  }

  @Override
  public String toString() {
    return word;
  }
}
