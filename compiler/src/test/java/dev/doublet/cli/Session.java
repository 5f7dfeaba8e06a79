package dev.doublet.cli;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/** Runs of the command line in one folder, as a person would see them. */
final class Session {
  private final Path folder;
  private String out = "";
  private String err = "";

  Session(Path folder) {
    this.folder = folder;
  }

  /** Runs {@code doublet} with these arguments and returns the exit code. */
  int run(String... arguments) {
    ByteArrayOutputStream outBytes = new ByteArrayOutputStream();
    ByteArrayOutputStream errBytes = new ByteArrayOutputStream();
    PrintStream outStream = new PrintStream(outBytes, true, StandardCharsets.UTF_8);
    PrintStream errStream = new PrintStream(errBytes, true, StandardCharsets.UTF_8);
    int code = Main.run(new Terminal(outStream, errStream, false, false, folder), arguments);
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
