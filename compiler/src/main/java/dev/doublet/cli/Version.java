package dev.doublet.cli;

import dev.doublet.Compiler;
import picocli.CommandLine.IVersionProvider;

/** The version, as the jar says it. */
final class Version implements IVersionProvider {
  @Override
  public String[] getVersion() {
    String version = Compiler.class.getPackage().getImplementationVersion();
    return new String[] {"doublet " + (version == null ? "unreleased" : version)};
  }
}
