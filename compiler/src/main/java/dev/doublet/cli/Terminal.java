package dev.doublet.cli;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.page.AspectLook;
import dev.doublet.report.Summary;
import dev.doublet.source.Visible;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Path;
import java.util.function.Function;

/** Where a run stands and prints. What it prints is made visible first. */
final class Terminal {
  private final InputStream in;
  private final PrintStream out;
  private final PrintStream err;
  private final boolean colour;
  private final boolean person;
  private final boolean pipe;
  private final Path folder;

  /**
   * A terminal of any sort.
   *
   * @param out the result
   * @param err progress, and what could not be done
   * @param colour true when a person sees {@code out} on a terminal
   * @param pipe true when another program reads {@code out}, which may stop before the end
   * @param folder what paths are relative to
   */
  Terminal(PrintStream out, PrintStream err, boolean colour, boolean pipe, Path folder) {
    this(System.in, out, err, colour, pipe, folder);
  }

  /**
   * The same with an input.
   *
   * @param in what another program sends
   */
  Terminal(
      InputStream in, PrintStream out, PrintStream err, boolean colour, boolean pipe, Path folder) {
    this.in = in;
    this.out = out;
    this.err = err;
    this.colour = colour;
    this.person = Boolean.getBoolean("doublet.terminal");
    this.pipe = pipe;
    this.folder = folder;
  }

  /** The launcher says where the output goes, as Java cannot tell reliably. */
  static Terminal of(PrintStream out, PrintStream err) {
    boolean colour = Boolean.getBoolean("doublet.terminal") && System.getenv("NO_COLOR") == null;
    return new Terminal(out, err, colour, Boolean.getBoolean("doublet.pipe"), Path.of(""));
  }

  /** What paths are relative to. */
  Path folder() {
    return folder;
  }

  /** What another program sends. */
  InputStream input() {
    return in;
  }

  /** Where another program reads, byte by byte and not made visible. */
  OutputStream bytes() {
    return out;
  }

  /** Prints a part of the result. */
  void print(String text) {
    out.print(Visible.of(text));
  }

  /** Prints what a program reads to the letter; a person on a terminal gets it made visible. */
  void printRaw(String text) {
    out.print(person ? Visible.of(text) : text);
  }

  /** Prints what was found. */
  void show(Summary summary) {
    // It makes itself visible, all but the colours.
    out.print(summary.text(colour));
  }

  /** Prints what was found, and draws some of it where there are colours. */
  void show(Summary summary, Function<Diagnostic, String> drawing) {
    out.print(colour ? summary.text(drawing) : summary.text(false));
  }

  /** Prints what is no result, of several lines. */
  void tell(String text) {
    err.print(Visible.of(text));
  }

  /** Prints what aspects look like. */
  void show(AspectLook look) {
    // It makes itself visible too.
    out.print(look.text(colour));
  }

  /** Says in a line what could not be done. */
  void complain(String sentence) {
    err.print("doublet: " + Visible.line(sentence) + "\n");
  }

  /** For the library that reads options. */
  PrintWriter result() {
    return visibly(out);
  }

  /** For the library that reads options. */
  PrintWriter complaints() {
    return visibly(err);
  }

  /**
   * True when all that was printed arrived, or whoever reads a pipe had read enough. A full disk is
   * seen here only: a stream keeps its troubles to itself.
   */
  boolean isAllPrinted() {
    return !out.checkError() || pipe;
  }

  private static PrintWriter visibly(PrintStream stream) {
    Writer writer =
        new Writer() {
          @Override
          public void write(char[] text, int start, int length) {
            stream.print(Visible.of(new String(text, start, length)));
          }

          @Override
          public void flush() {
            stream.flush();
          }

          @Override
          public void close() {
            stream.flush();
          }
        };
    return new PrintWriter(writer, true);
  }
}
