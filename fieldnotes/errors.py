"""Every error that a user can mend, each with the sentence that says how.

The library raises these; only the command line shows them (one line on standard error, exit code 2).
"""

from __future__ import annotations


class FieldnotesError(Exception):
    """A problem in one sentence: what, where, and how to mend it."""


class RecordingError(FieldnotesError):
    """A recording or a notes file that is missing, empty, damaged or not what its name says."""


class WeightsError(FieldnotesError):
    """Speech weights that are missing, unknown, altered or out of reach."""


class VocabularyError(FieldnotesError):
    """Mistakes in vocabulary files, all of them at once, each with file and line."""


class TemplateError(FieldnotesError):
    """A template that does not render, with file and line."""


class JobFolderError(FieldnotesError):
    """A job folder that exists already or cannot be written."""


class SettingsError(FieldnotesError):
    """A settings file that is missing or wrong, with file and line."""


class KeyFileError(FieldnotesError):
    """A key that cannot be used to seal, or that would not be safe."""


class PhotoError(FieldnotesError):
    """A folder of pictures that is missing, or a picture that cannot be read."""
