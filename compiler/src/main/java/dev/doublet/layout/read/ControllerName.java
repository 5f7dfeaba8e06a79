package dev.doublet.layout.read;

import dev.doublet.layout.Controller;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * What a controller may be called: two files are named after it, and every name in its header
 * begins with it.
 */
final class ControllerName {
  /** Names of devices, with any ending (Microsoft, "Naming Files, Paths, and Namespaces"). */
  private static final String DEVICE = "con|prn|aux|nul|(com|lpt)[0-9]";

  /** The headers of C99 (ISO/IEC 9899:1999, 7.1.2). */
  private static final Set<String> HEADERS_OF_C =
      Set.of(
          "assert",
          "complex",
          "ctype",
          "errno",
          "fenv",
          "float",
          "inttypes",
          "iso646",
          "limits",
          "locale",
          "math",
          "setjmp",
          "signal",
          "stdarg",
          "stdbool",
          "stddef",
          "stdint",
          "stdio",
          "stdlib",
          "string",
          "tgmath",
          "time",
          "wchar",
          "wctype");

  /** Headers that a sketch is likely to have for its board: our choice. */
  private static final Set<String> HEADERS_OF_BOARDS = Set.of("arduino", "board");

  private ControllerName() {}

  /** Why a name of letters, digits and hyphens does not do all the same, and what to do. */
  static Optional<String> fault(String name) {
    String file = name.toLowerCase(Locale.ROOT);
    if (file.matches(DEVICE)) {
      return Optional.of(
          "rename it: its table would be "
              + name
              + ".bin, and Windows takes every file of that name for a device.");
    }
    if ((Controller.prefix(name) + "_").startsWith("DOUBLET_")) {
      return Optional.of(
          "rename it: its names would mix with those of the reader, which all begin with doublet.");
    }
    if (HEADERS_OF_C.contains(file)) {
      return Optional.of(
          "rename it: its table's header would be " + name + ".h, and stand for one of C's own.");
    }
    if (HEADERS_OF_BOARDS.contains(file)) {
      return Optional.of(
          "rename it: its table's header would be " + name + ".h, and stand for the board's own.");
    }
    return Optional.empty();
  }

  /** Why two names, as {@code {controllers}}, do not do beside each other. */
  static String clash(String first, String again) {
    return "the tables of \"{controllers}\" "
        + (first.equalsIgnoreCase(again)
            ? "are one file where case counts for nothing"
            : "would give the same names to C");
  }
}
