"""The page map: screens as small faces, screen changes as arrows between them."""
