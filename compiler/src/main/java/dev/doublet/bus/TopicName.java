package dev.doublet.bus;

import java.util.Optional;

/** Names of MQTT topics that a message can be published to (OASIS MQTT 3.1.1, parts 1.5.3, 4.7). */
public final class TopicName {
  private static final int MOST_BYTES = 65_535;

  private TopicName() {}

  /** Why a text cannot be the name of a topic, in words; empty when it can. */
  public static Optional<String> fault(String name) {
    if (name.isEmpty()) {
      return Optional.of("a topic has at least one character");
    }
    int bytes = 0;
    for (int i = 0; i < name.length(); ) {
      int point = name.codePointAt(i);
      if (point == '+' || point == '#') {
        return Optional.of("\"" + (char) point + "\" stands for other topics, and names none");
      }
      if (point == 0) {
        return Optional.of("a topic cannot hold the character U+0000");
      }
      if (point >= 0xD800 && point <= 0xDFFF) {
        return Optional.of("half of a character pair stands alone");
      }
      bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
      i += Character.charCount(point);
    }
    return bytes > MOST_BYTES
        ? Optional.of("it takes " + bytes + " bytes, and a topic at most " + MOST_BYTES)
        : Optional.empty();
  }
}
