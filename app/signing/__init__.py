"""Signatures of files as OpenSSH makes them: a person's own key, and what anybody can verify without this program."""
