package dev.doublet.rulebook;

import dev.doublet.rulebook.Permission.Standing;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;

/**
 * The ends of the order of permissions. Equal permissions are weighed once, so that many things of
 * one permission cost what one does.
 */
public final class Extremes {
  private Extremes() {}

  /** Those that no other of them is known to be more restrictive than, in their order. */
  public static <T> List<T> mostRestrictive(
      Collection<T> among, Function<T, Permission> permission) {
    return without(among, permission, Standing.LESS_RESTRICTIVE);
  }

  /** Those that no other of them is known to be less restrictive than, in their order. */
  public static <T> List<T> leastRestrictive(
      Collection<T> among, Function<T, Permission> permission) {
    return without(among, permission, Standing.MORE_RESTRICTIVE);
  }

  /** Takes away what stands so to anything else. */
  private static <T> List<T> without(
      Collection<T> among, Function<T, Permission> permission, Standing standing) {
    if (among.size() == 1) {
      return List.copyOf(among);
    }
    Set<Permission> all = new LinkedHashSet<>();
    among.forEach(one -> all.add(permission.apply(one)));
    Set<Permission> left = new HashSet<>();
    Permission beyond = null;
    for (Permission one : all) {
      // What is beyond one is beyond most, and so is asked first.
      if (beyond == null || one.against(beyond) != standing) {
        Permission found = first(one, all, standing);
        beyond = found == null ? beyond : found;
        if (found == null) {
          left.add(one);
        }
      }
    }
    return among.stream().filter(one -> left.contains(permission.apply(one))).toList();
  }

  private static Permission first(Permission one, Set<Permission> all, Standing standing) {
    for (Permission other : all) {
      if (one.against(other) == standing) {
        return other;
      }
    }
    return null;
  }
}
