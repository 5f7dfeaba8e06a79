package dev.doublet.editor;

import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.Map;
import java.util.TreeMap;

/**
 * The texts of a folder as their authors see them: those open in the editor with what was typed
 * last, the others as they are saved.
 *
 * @param open by name, as the reader of saved ones knows them
 * @param saved reads the others
 */
public record Texts(Map<String, SourceFile> open, SourceReader saved) implements SourceReader {

  /** Copies the map. */
  public Texts {
    open = Map.copyOf(open);
  }

  @Override
  public SourceFile read(String path) throws Unreadable {
    SourceFile file = open.get(path);
    return file == null ? saved.read(path) : file;
  }

  /** The same with another text in place of one. */
  public Texts with(SourceFile text) {
    Map<String, SourceFile> more = new TreeMap<>(open);
    more.put(text.name(), text);
    return new Texts(more, saved);
  }
}
