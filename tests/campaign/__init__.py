"""The **campaign**: invented instruments whose truth is known are read by a hand that errs, and the answers judged.

Its modules know each other by relative names only and the program by public ones: linked into a folder of its own, the
package tries whatever checkout stands first on the path.
"""
