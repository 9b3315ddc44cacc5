"""Two projects compared by their parts, and told in words. Changes neither."""
