"""Lessons as a folder of static pages that compute in each reader's own browser, and a server that hands them out."""
