"""checkface: check-face validation with MICR-line parsing."""
