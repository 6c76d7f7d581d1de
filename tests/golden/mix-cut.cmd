coatwright mix shellac-dewaxed 500 ml --cut 2
