package dev.doublet.source;

import java.util.ArrayList;
import java.util.List;

/** Fetches texts by name, so that only the command line touches the disk. */
@FunctionalInterface
public interface SourceReader {

  /**
   * Fetches one text.
   *
   * @param path a path with forward slashes, relative to where the command runs, or absolute
   * @throws Unreadable when there is no such file or it is not text; the message is for people
   */
  SourceFile read(String path) throws Unreadable;

  /**
   * A path that a file names, as this reader knows it.
   *
   * @param file the file that names it
   * @param path absolute, or as seen from the folder of that file
   * @return the path without {@code .} and, where they can be left out, {@code ..}
   */
  static String beside(String file, String path) {
    String whole =
        path.startsWith("/") ? path : file.substring(0, file.lastIndexOf('/') + 1) + path;
    List<String> parts = new ArrayList<>();
    for (String part : whole.split("/")) {
      boolean up =
          part.equals("..") && !parts.isEmpty() && !parts.get(parts.size() - 1).equals("..");
      if (up) {
        parts.remove(parts.size() - 1);
      } else if (!part.isEmpty() && !part.equals(".")) {
        parts.add(part);
      }
    }
    String names = String.join("/", parts);
    return whole.startsWith("/") ? "/" + names : names.isEmpty() ? "." : names;
  }

  /** Why a text could not be fetched, in words for people ("there is no such file"). */
  final class Unreadable extends Exception {
    private static final long serialVersionUID = 1L;

    private final String remedy;
    private final boolean text;

    /** Gives the reason. */
    public Unreadable(String reason) {
      this(reason, "");
    }

    /** Gives the reason, and what to do about it. */
    public Unreadable(String reason, String remedy) {
      this(reason, remedy, true);
    }

    private Unreadable(String reason, String remedy, boolean text) {
      super(reason);
      this.remedy = remedy;
      this.text = text;
    }

    /** Of a file that is there, and holds no text. */
    public static Unreadable noText(String reason, String remedy) {
      return new Unreadable(reason, remedy, false);
    }

    /** The name of what is said of it. */
    public String finding() {
      return text ? "missing-file" : "not-text";
    }

    /** What to do about it, where that is known, or what is usually done. */
    public String remedy(String usual) {
      return remedy.isEmpty() ? usual : remedy;
    }
  }
}
