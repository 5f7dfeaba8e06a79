package dev.doublet.cli;

import dev.doublet.Compiler;
import picocli.CommandLine.IVersionProvider;

/** The version, as the jar says it. */
final class Version implements IVersionProvider {
  @Override
  public String[] getVersion() {
    return new String[] {"doublet " + number()};
  }

  /** The number alone. */
  static String number() {
    String version = Compiler.class.getPackage().getImplementationVersion();
    return version == null ? "unreleased" : version;
  }
}
