/** One picture, one name; one action, one name (49 CFR 236.23(c)). */
package dev.doublet.check.ambiguity;
