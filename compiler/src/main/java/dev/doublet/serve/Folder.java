package dev.doublet.serve;

import dev.doublet.source.SourceReader;
import java.util.List;
import java.util.Optional;

/** The folder that an editor works in, as the command line sees it. */
public interface Folder {
  /** The rulebooks and layouts in it, sorted; none when it cannot be read. */
  List<String> roots();

  /** Reads texts as they are saved now; what it read once it reads no more. */
  SourceReader saved();

  /** The name by which {@link #saved} knows a file; empty for what is no file. */
  Optional<String> name(String uri);

  /** The address by which an editor knows a file. */
  String uri(String name);

  /** Opens a folder. */
  @FunctionalInterface
  interface Opening {
    /**
     * Opens it.
     *
     * @param uris the folders that the editor names; none for where the command runs
     */
    Folder open(List<String> uris);
  }
}
