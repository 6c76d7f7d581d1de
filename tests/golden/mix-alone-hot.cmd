coatwright mix post-catalysed-varnish 350 ml --at '95 C'
