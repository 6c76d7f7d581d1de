coatwright mix danish-oil 1 qt --units us
