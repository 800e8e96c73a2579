"""Rescue: from where one is to a quilt that fits; rules of thumb and printed sizes put to the test."""
