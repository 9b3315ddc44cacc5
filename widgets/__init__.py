"""What a person sees. Qt only; never talks to the line itself."""
