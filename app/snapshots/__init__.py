"""As-found, as-left: all readable registers of a follower at one time, in a file, compared and written back."""
