package dev.doublet.layout;

import java.util.List;

/**
 * A layout that another one uses: a module that is carried to a meet.
 *
 * @param name as the layout that uses it calls it
 * @param owner whose it is; may be empty
 * @param offset what is added to its DCC addresses
 * @param controllers names of its controllers
 */
public record Module(String name, String owner, int offset, List<String> controllers) {

  /** Copies the list. */
  public Module {
    controllers = List.copyOf(controllers);
  }

  /** "module tower of A. Reed". */
  public String words() {
    return "module " + name + (owner.isEmpty() ? "" : " of " + owner);
  }
}
