package dev.doublet.cli;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/** Runs of the command line in one folder, as a person would see them. */
final class Session {
  private final Path folder;
  private final boolean colour;
  private String in = "";
  private String out = "";
  private String err = "";

  Session(Path folder) {
    this(folder, false);
  }

  private Session(Path folder, boolean colour) {
    this.folder = folder;
    this.colour = colour;
  }

  /** On a terminal that has colours. */
  static Session inColour(Path folder) {
    return new Session(folder, true);
  }

  /** Hands a text to the runs that follow. */
  Session with(String input) {
    in = input;
    return this;
  }

  /** Runs {@code doublet} with these arguments and returns the exit code. */
  int run(String... arguments) {
    ByteArrayOutputStream outBytes = new ByteArrayOutputStream();
    ByteArrayOutputStream errBytes = new ByteArrayOutputStream();
    PrintStream outStream = new PrintStream(outBytes, true, StandardCharsets.UTF_8);
    PrintStream errStream = new PrintStream(errBytes, true, StandardCharsets.UTF_8);
    InputStream input = new ByteArrayInputStream(in.getBytes(StandardCharsets.UTF_8));
    Terminal terminal = new Terminal(input, outStream, errStream, colour, false, folder);
    int code = Main.run(terminal, arguments);
    out = outBytes.toString(StandardCharsets.UTF_8);
    err = errBytes.toString(StandardCharsets.UTF_8);
    return code;
  }

  String out() {
    return out;
  }

  String err() {
    return err;
  }
}
