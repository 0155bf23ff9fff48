FROM node:26-slim

WORKDIR /app
COPY package.json package-lock.json ./
RUN npm ci --omit=dev && npm cache clean --force
COPY tsconfig.json ./
COPY migrations migrations
COPY views views
COPY src src

RUN mkdir /data && chown node:node /data
USER node
ENV HOST=0.0.0.0 PORT=8080 DATA_DIR=/data NPM_CONFIG_UPDATE_NOTIFIER=false
VOLUME /data
EXPOSE 8080
HEALTHCHECK --interval=30s --timeout=5s --start-period=60s \
  CMD ["node", "-e", "fetch(`http://127.0.0.1:${process.env.PORT}/livez`).then(answer => process.exit(answer.ok ? 0 : 1), () => process.exit(1))"]
CMD ["node", "src/main.ts"]
