/**
 * One picture, one name; one action, one name (49 CFR 236.23(c)).
 *
 * <p><b>Forms that look alike are judged together.</b> A crew sees how many heads a signal has and
 * how they are mounted, not what the rulebook calls its form; so {@code twin-aspects} gathers forms
 * by mount and number of heads.
 */
package dev.doublet.check.ambiguity;
