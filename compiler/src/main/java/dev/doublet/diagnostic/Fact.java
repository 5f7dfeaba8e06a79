package dev.doublet.diagnostic;

/**
 * One named value of a diagnostic: a witness, a figure, a pair of permissions.
 *
 * @param name what it is: "picture", "needed", "free"
 * @param value as shown
 */
public record Fact(String name, String value) {}
